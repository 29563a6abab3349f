import type { Ref } from 'react'
import type { SevereView } from '../../app/view/drawViewTypes.ts'

interface SeverePanelProps {
  readonly severe: SevereView
  readonly heading: Ref<HTMLHeadingElement>
}

/** One instruction over everything. Bars above and below and the word mark it, not the color alone. */
export function SeverePanel({ severe, heading }: SeverePanelProps) {
  return (
    <section className="severe" role="alert" aria-labelledby="severe-title">
      <p className="sign" aria-hidden="true">
        !
      </p>
      <h1 id="severe-title" tabIndex={-1} ref={heading}>
        {severe.title}
      </h1>
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
