import type { MomentTime, TimePoint } from '../order/sitting.ts'

/** How a sample was drawn against its due time. */
export interface Punctuality {
  readonly due_ms: number
  readonly verdict: 'early' | 'inTime' | 'late'
  /** Minutes before or after the due time, of a trough before or after its span; rounded, never negative. */
  readonly by_min: number
}

/** When a time point is due, ms since 1970 UTC; `undefined` where nothing is, or its moment is not known. */
export function dueOf_ms(
  { from, after_min }: Pick<TimePoint, 'from' | 'after_min'>,
  moments: readonly MomentTime[],
): number | undefined {
  // The latest word on a moment stands.
  const known = moments.findLast(({ moment }) => moment === from)
  return known && after_min !== undefined ? known.at_ms + after_min * 60_000 : undefined
}

/** Whether a sample that was drawn then is in time; `undefined` where nothing is due. */
export function punctualityOf(
  point: TimePoint,
  moments: readonly MomentTime[],
  drawn_ms: number,
): Punctuality | undefined {
  const due_ms = dueOf_ms(point, moments)
  if (due_ms === undefined) return undefined
  const off_min = (drawn_ms - due_ms) / 60_000
  const { tolerance_min } = point
  const early = off_min < -(tolerance_min ?? 0)
  const late = tolerance_min !== undefined && off_min > tolerance_min
  const verdict = early ? 'early' : late ? 'late' : 'inTime'
  // Rounded up outside the time, so that it never reads as if it were allowed.
  // A trough has a span before the dose and no minute of its own.
  const span_min = point.from === 'nextDose' && verdict !== 'inTime' ? (tolerance_min ?? 0) : 0
  const by_min = Math[verdict === 'inTime' ? 'round' : 'ceil'](Math.abs(off_min) - span_min)
  return { due_ms, verdict, by_min }
}
