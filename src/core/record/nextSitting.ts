import { NOTED_MOMENTS, type DrawSitting, type Moment, type MomentTime } from '../order/sitting.ts'
import { defined } from '../basics/defined.ts'
import { isToDraw, type Series, type SeriesSitting, type SittingState } from './seriesRecord.ts'

/** Why a sitting is not drawn now; `undefined`: it may be begun. */
export function refusalOf(
  { holds }: Pick<Series, 'holds'>,
  { state }: Pick<SeriesSitting, 'state'>,
): Exclude<SittingState, 'todo' | 'failed'> | 'held' | undefined {
  if (!isToDraw(state)) return state
  return holds.length > 0 ? 'held' : undefined
}

/** What the draw of a sitting knows of its series when it is opened. */
export function nextSitting(series: Series, { key, part }: SeriesSitting): DrawSitting {
  const later = series.sittings
    .filter((other) => other.key !== key && isToDraw(other.state))
    .map((other) => other.part)
  const counted = [part, ...later].map(({ from }) => from)
  // What this sample is counted from, and what a later one is, so that it is not asked for again.
  const moments: readonly MomentTime[] = series.moments
    .filter(({ moment }) => moment === part.from || isTold(moment, counted))
    .map(({ moment, at_ms }) => ({ moment, at_ms }))
  return defined({
    series: series.id,
    parts: [part],
    later: later.length > 0 ? later : undefined,
    practice: series.opened.sitting?.practice,
    wentOn: series.wentOn.length > 0 ? series.wentOn : undefined,
    moments: moments.length > 0 ? moments : undefined,
    sitesBefore: part.apart === 'otherSite' ? series.sites : undefined,
  })
}

const isTold = (moment: Moment, counted: readonly (Moment | undefined)[]): boolean =>
  counted.includes(moment) && NOTED_MOMENTS.some((told) => told === moment)
