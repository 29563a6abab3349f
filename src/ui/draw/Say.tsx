import type { ReactNode, Ref } from 'react'

interface SayProps {
  /** The small line above: what it is about, or the step while a notice has its place. */
  readonly above: string | undefined
  /** One instruction, to be read at two metres. */
  readonly large: string
  readonly points: readonly string[]
  readonly heading: Ref<HTMLHeadingElement>
  /** A notice has taken the place of the instruction. */
  readonly isNotice?: boolean
  readonly children?: ReactNode
}

/** What to do now, in the place where it always stands. */
export function Say({ above, large, points, heading, isNotice = false, children }: SayProps) {
  return (
    <section
      className={isNotice ? 'say isNotice' : 'say'}
      role={isNotice ? 'alert' : undefined}
      aria-labelledby="step-instruction"
    >
      <p className="above">{above}</p>
      <h1
        id="step-instruction"
        key={large}
        className="instruction"
        data-part={isNotice ? 'notice' : 'instruction'}
        tabIndex={-1}
        ref={heading}
      >
        {large}
      </h1>
      <div className="sayMore">
        {points.length > 0 && (
          <ul className={points.length > 2 ? 'points many' : 'points'}>
            {points.map((point, i) => (
              <li key={i}>{point}</li>
            ))}
          </ul>
        )}
        {children}
      </div>
    </section>
  )
}
