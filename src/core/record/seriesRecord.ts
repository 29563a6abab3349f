import {
  holdKey,
  sittingKey,
  NOTED_MOMENTS,
  type DrawnSite,
  type Moment,
  type SeriesGoAhead,
  type SeriesHold,
  type SittingPart,
  type NotedMoment,
} from '../order/sitting.ts'
import { defined } from '../basics/defined.ts'
import { dueOf_ms } from '../series/due.ts'
import type { DrawLog } from '../protocol/entry.ts'
import type { DrawOpened } from '../protocol/events.ts'
import type { DrawFacts, MomentFact } from './drawFacts.ts'
import { factsOf } from './factsOf.ts'
import { labeledTubes } from './labeledTubes.ts'
import { holdsOf, openHolds } from './seriesHolds.ts'

/**
 * `todo`: no draw yet; `open`: its draw is not closed; `done`: it has a specimen; `failed`: its draw was closed without
 * one; `leftOut`: somebody said that it will not be drawn.
 */
export type SittingState = 'todo' | 'open' | 'done' | 'failed' | 'leftOut'

/** A draw of it may still be begun. */
export const isToDraw = (state: SittingState): state is 'todo' | 'failed' =>
  state === 'todo' || state === 'failed'

/** One sitting of a series as its records tell it. */
export interface SeriesSitting {
  readonly key: string
  readonly part: SittingPart
  readonly state: SittingState
  readonly due_ms?: number
  /** When its first specimen came off. */
  readonly drawn_ms?: number
  /** The draw to go to: the one that is open, else the last one. */
  readonly drawId?: string
  readonly whyLeftOut?: string
}

/** An order drawn several times, as far as its records tell. */
export interface Series {
  /** Id of the draw with which it began. */
  readonly id: string
  readonly opened: DrawOpened
  readonly sittings: readonly SeriesSitting[]
  /** Every word on its moments, the latest last. */
  readonly moments: readonly MomentFact[]
  /** Moments that a person tells, as far as a sample is counted from them. */
  readonly asks: readonly NotedMoment[]
  /** Where its draws were made. */
  readonly sites: readonly DrawnSite[]
  /** When its first draw was opened, ms since 1970 UTC. */
  readonly begun_ms: number
  /** Minutes east of UTC where it began, for writing local times. */
  readonly offset_min: number
  /** Why nothing more of it is drawn until somebody named says so; empty: nothing holds it. */
  readonly holds: readonly SeriesHold[]
  /** Who let it go on, after what. */
  readonly wentOn: readonly SeriesGoAhead[]
  /** Nothing is left to do. */
  readonly isOver: boolean
}

/** The series that these logs are of; `undefined` where the draw with which it began is not among them. */
export function seriesOf(logs: readonly DrawLog[]): Series | undefined {
  const all = logs.map(factsOf)
  const first = all.find(({ opened }) => opened.sitting?.series === opened.drawId)
  const begun = first?.opened.sitting
  if (!first || !begun) return undefined
  // Practice and patients never make one series.
  const draws = all.filter(
    ({ opened }) =>
      opened.sitting?.series === begun.series && opened.invented === first.opened.invented,
  )
  const parts = [...begun.parts, ...(begun.later ?? [])]
  const moments = momentsOf(draws)
  const sittings = parts.map((part) => sittingOf(part, draws, moments))
  const wentOn = goAheadsOf(draws)
  return {
    id: begun.series,
    opened: first.opened,
    sittings,
    moments,
    asks: NOTED_MOMENTS.filter((moment) => parts.some(({ from }) => from === moment)),
    sites: draws.flatMap(({ punctures }) =>
      punctures.flatMap(({ arm, vein, needleIn }) =>
        arm && needleIn.length > 0 ? [defined({ arm, vein })] : [],
      ),
    ),
    begun_ms: first.openedAt.at_ms,
    offset_min: first.openedAt.offset_min,
    holds: openHolds(draws.flatMap(holdsOf), wentOn),
    wentOn,
    isOver: sittings.every(({ state }) => state === 'done' || state === 'leftOut'),
  }
}

/** A go-ahead that was written into several records of the series is one. */
function goAheadsOf(draws: readonly DrawFacts[]): readonly SeriesGoAhead[] {
  const all = draws.flatMap(({ wentOn }) => wentOn)
  const keyOf = ({ holds }: SeriesGoAhead): string => holds.map(holdKey).join()
  return all
    .filter((each, index) => all.findIndex((other) => keyOf(other) === keyOf(each)) === index)
    .map(({ holds, by, why }) => ({ holds, by, why }))
}

/** What was told in any of the records, and when the first specimen came off. */
function momentsOf(draws: readonly DrawFacts[]): readonly MomentFact[] {
  const told = draws
    .flatMap(({ moments }) => moments)
    .filter((fact) => fact.told !== undefined || fact.moment !== 'firstDrawn')
    .sort((a, b) => (a.told?.at_ms ?? 0) - (b.told?.at_ms ?? 0))
    .filter((fact, index, all) => all.findIndex((other) => isSame(other, fact)) === index)
  const off = draws
    .filter(({ opened }) => opened.sitting?.parts.some(({ number }) => number === 1))
    .flatMap(labeledTubes)
    .map((tube) => (tube.off ?? tube.on).at_ms)
  const first: { readonly moment: Moment; readonly at_ms: number }[] =
    off.length > 0 ? [{ moment: 'firstDrawn', at_ms: Math.min(...off) }] : []
  return [...told, ...first]
}

/** A correction that was written into several records of the series is one. */
const isSame = (a: MomentFact, b: MomentFact): boolean =>
  a.moment === b.moment && a.at_ms === b.at_ms

function sittingOf(
  part: SittingPart,
  draws: readonly DrawFacts[],
  moments: readonly MomentFact[],
): SeriesSitting {
  const key = sittingKey(part)
  const own = draws.filter(({ opened }) =>
    opened.sitting?.parts.some((each) => sittingKey(each) === key),
  )
  const open = own.find(({ closed }) => !closed)
  const specimens = own.flatMap((facts) =>
    labeledTubes(facts).filter(({ tube }) => tube.tests.some((test) => part.tests.includes(test))),
  )
  const leftOut = draws
    .flatMap((facts) => facts.leftOut)
    .find(({ sittings }) => sittings.some((each) => sittingKey(each) === key))
  const off = specimens.map((tube) => (tube.off ?? tube.on).at_ms)
  const ended = leftOut ? 'leftOut' : own.length > 0 ? 'failed' : 'todo'
  return defined({
    key,
    part,
    state: open ? ('open' as const) : specimens.length > 0 ? ('done' as const) : ended,
    due_ms: dueOf_ms(part, moments),
    drawn_ms: off.length > 0 ? Math.min(...off) : undefined,
    drawId: (open ?? own.at(-1))?.opened.drawId,
    whyLeftOut: leftOut?.why,
  })
}
