import { useTexts } from '../shared/useTexts.ts'

interface Notice {
  readonly code: string
  readonly text: string
  readonly source?: string
}

interface NoticesProps {
  readonly title: string
  readonly tone: 'stopBox' | 'warnBox'
  readonly notices: readonly Notice[]
}

/** What stops the draw, or what to keep in mind. Where it comes from is there for who asks. */
export function Notices({ title, tone, notices }: NoticesProps) {
  if (notices.length === 0) return null
  return (
    <section className={tone} aria-label={title} {...(tone === 'stopBox' && { role: 'alert' })}>
      <h2>{title}</h2>
      <ul>
        {notices.map(({ text }, i) => (
          <li key={i}>{text}</li>
        ))}
      </ul>
      <Sources notices={notices.filter(({ source }) => source !== undefined)} />
    </section>
  )
}

function Sources({ notices }: Pick<NoticesProps, 'notices'>) {
  const { texts, fill } = useTexts()
  if (notices.length === 0) return null
  return (
    <details className="more">
      <summary>{texts.plan.sources}</summary>
      <ul className="small">
        {notices.map(({ text, source = '' }, i) => (
          <li key={i}>
            {text} <span className="soft">{fill(texts.plan.source, { source })}</span>
          </li>
        ))}
      </ul>
    </details>
  )
}
