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

/** What stops the draw, or what to keep in mind. Each says where it comes from. */
export function Notices({ title, tone, notices }: NoticesProps) {
  const { texts, fill } = useTexts()
  if (notices.length === 0) return null
  return (
    <section className={tone} aria-label={title} {...(tone === 'stopBox' && { role: 'alert' })}>
      <h2>{title}</h2>
      <ul>
        {notices.map((notice) => (
          <li key={`${notice.code} ${notice.text}`}>
            {notice.text}
            {notice.source !== undefined && (
              <span className="small soft">
                {' '}
                {fill(texts.plan.source, { source: notice.source })}
              </span>
            )}
          </li>
        ))}
      </ul>
    </section>
  )
}
