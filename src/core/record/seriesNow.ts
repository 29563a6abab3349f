import { isToDraw, type Series, type SeriesSitting } from './seriesRecord.ts'

/** It may be drawn now: nothing is waited for, or it is due within what still counts as in time. */
export const isTime = (
  { part, due_ms }: Pick<SeriesSitting, 'part' | 'due_ms'>,
  now_ms: number,
): boolean =>
  part.from === undefined ||
  (due_ms !== undefined && now_ms >= due_ms - (part.tolerance_min ?? 0) * 60_000)

/**
 * Whether somebody has to do something about a series now: decide, tell the moment that its samples are counted from,
 * or draw. The next dose is told ahead and never urgent.
 */
export function needsNow(series: Series, now_ms: number): boolean {
  const { holds, asks, moments, sittings } = series
  const left = sittings.filter(({ state }) => isToDraw(state))
  if (left.length === 0) return false
  const isTold = (moment: string): boolean => moments.some((told) => told.moment === moment)
  return (
    holds.length > 0 ||
    asks.some((moment) => moment !== 'nextDose' && !isTold(moment)) ||
    left.some((sitting) => isTime(sitting, now_ms))
  )
}
