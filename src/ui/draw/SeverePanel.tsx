import type { SevereView } from '../../app/views.ts'

/** One instruction over everything. Bars above and below and the word mark it, not the color alone. */
export function SeverePanel({ severe }: { readonly severe: SevereView }) {
  return (
    <section className="severe" role="alert" aria-labelledby="severe-title">
      <p className="sign" aria-hidden="true">
        !
      </p>
      <h1 id="severe-title">{severe.title}</h1>
      <p className="instruction">{severe.instruction}</p>
      {severe.points.length > 0 && (
        <ul>
          {severe.points.map((point) => (
            <li key={point}>{point}</li>
          ))}
        </ul>
      )}
    </section>
  )
}
