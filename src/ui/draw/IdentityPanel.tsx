import type { DrawView } from '../../app/view/drawViewTypes.ts'

/** The identifiers to compare with what the patient says. */
export function IdentityPanel({ identifiers }: Pick<DrawView, 'identifiers'>) {
  return (
    <dl className="identity" aria-label="Identifiers on the order">
      {identifiers.map(({ label, value }) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd className="figures">{value}</dd>
        </div>
      ))}
    </dl>
  )
}
