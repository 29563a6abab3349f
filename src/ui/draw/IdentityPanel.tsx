import type { DrawView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'

/** The identifiers to compare with what the patient says. */
export function IdentityPanel({ identifiers }: Pick<DrawView, 'identifiers'>) {
  const { draw } = useTexts().texts
  return (
    <dl className="identity" aria-label={draw.identifiers}>
      {identifiers.map(({ label, value }, i) => (
        <div key={i}>
          <dt>{label}</dt>
          <dd className="figures">{value}</dd>
        </div>
      ))}
    </dl>
  )
}
