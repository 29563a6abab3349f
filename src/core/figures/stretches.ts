/** How a span of time is parted: so many last days, weeks or months. */
export const SPANS = ['days', 'weeks', 'months'] as const
export type Span = (typeof SPANS)[number]

/** Enough points for a run chart in each, and what a person can still read on one picture. */
export const STRETCHES_n: Readonly<Record<Span, number>> = { days: 31, weeks: 26, months: 24 }

const DAY_ms = 86_400_000

const daysSince = (day: string): number => Math.floor(Date.parse(`${day}T00:00:00Z`) / DAY_ms)
const dayAfter = (days: number): string => new Date(days * DAY_ms).toISOString().slice(0, 10)

/** Days since a Monday: 1 January 1970 was a Thursday. */
const sinceMonday = (days: number): number => (((days + 3) % 7) + 7) % 7

/**
 * The first day of the stretch that a local day lies in, `2026-11-23`. Weeks begin on Monday (ISO 8601).
 * @param day `2026-11-25`
 */
export function stretchOf(day: string, span: Span): string {
  switch (span) {
    case 'days':
      return day
    case 'weeks': {
      const days = daysSince(day)
      return dayAfter(days - sinceMonday(days))
    }
    case 'months':
      return `${day.slice(0, 7)}-01`
  }
}

/** First days of the stretches of a span that ends today, oldest first; those in which nothing was drawn too. */
export function stretchesTo(today: string, span: Span): readonly string[] {
  const last = stretchOf(today, span)
  return Array.from({ length: STRETCHES_n[span] }, (_, i) =>
    back(last, span, STRETCHES_n[span] - 1 - i),
  )
}

function back(from: string, span: Span, by: number): string {
  if (span !== 'months') return dayAfter(daysSince(from) - by * (span === 'weeks' ? 7 : 1))
  const [year = 0, month = 1] = from.split('-').map(Number)
  const months = year * 12 + (month - 1) - by
  return `${Math.floor(months / 12)}-${String((months % 12) + 1).padStart(2, '0')}-01`
}
