import type { Series } from '../../core/record/seriesRecord.ts'
import type { StoredDraw } from '../../ports/logStore.ts'

/** One day. */
export const PRACTICE_KEPT_ms = 86_400_000

/**
 * Practice that was begun more than a day ago and not ended: nobody comes back to it. Never the draw of a patient,
 * however old it is.
 */
export const oldPractice = (draws: readonly StoredDraw[], now_ms: number): readonly StoredDraw[] =>
  draws.filter(
    ({ invented, closed, opened_ms }) =>
      invented && !closed && now_ms - opened_ms > PRACTICE_KEPT_ms,
  )

/** The same for a rehearsed series: it is no longer listed, its records stay. */
export const isOldPractice = (
  { opened, begun_ms }: Pick<Series, 'opened' | 'begun_ms'>,
  now_ms: number,
): boolean => opened.invented && now_ms - begun_ms > PRACTICE_KEPT_ms
