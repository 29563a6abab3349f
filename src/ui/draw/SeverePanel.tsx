import type { Ref } from 'react'
import type { SevereView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'

interface SeverePanelProps {
  readonly severe: SevereView
  /** What is spoken for it where patients listen. */
  readonly coded: string | undefined
  readonly heading: Ref<HTMLHeadingElement>
}

/** An alarm: what it is, what comes next, and what is done. A sign, bars and words mark it, not the color alone. */
export function SeverePanel({ severe, coded, heading }: SeverePanelProps) {
  const { texts, fill } = useTexts()
  const { draw } = texts
  const next = severe.checklist.find(({ isDone }) => !isDone)
  return (
    <section className="say severe" role="alert" aria-labelledby="step-instruction">
      <p className="above" data-part="notice">
        <span className="sign" aria-hidden="true">
          !
        </span>
        <strong>{severe.title}</strong>
        {coded !== undefined && ` ${fill(draw.spoken, { words: coded })}`}
      </p>
      <h1
        id="step-instruction"
        key={severe.instruction}
        className="instruction"
        data-part="instruction"
        tabIndex={-1}
        ref={heading}
      >
        {severe.instruction}
      </h1>
      <div className="sayMore">
        {severe.points[0] !== undefined && (
          <ul className="points">
            {severe.points.slice(0, 2).map((point, i) => (
              <li key={i}>{point}</li>
            ))}
          </ul>
        )}
        {severe.checklist.length > 0 && (
          <ol className="bare checklist" aria-label={draw.checklist}>
            {severe.checklist.map((each, i) => (
              <li key={i} className={each.isDone ? 'isDone' : each === next ? 'isNext' : ''}>
                <span aria-hidden="true">{each.isDone ? '✓ ' : each === next ? '→ ' : ''}</span>
                {each.text}
                <span className="visuallyHidden">
                  {each.isDone ? ` ${draw.isDone}` : each === next ? ` ${draw.isNext}` : ''}
                </span>
              </li>
            ))}
          </ol>
        )}
      </div>
    </section>
  )
}
