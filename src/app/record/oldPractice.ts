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
