import {
  HOLD_WHYS,
  holdKey,
  sittingKey,
  type HoldWhy,
  type SeriesGoAhead,
  type SeriesHold,
} from '../order/sitting.ts'
import type { DrawFacts } from './drawFacts.ts'
import { labeledTubes } from './labeledTubes.ts'

/**
 * What in a draw holds the rest of its series: harm to the patient, a no, a doubt about who it is. That the rest waits
 * for a named word is common practice, no source.
 */
export function holdsOf(facts: DrawFacts): readonly SeriesHold[] {
  const { drawId, sitting } = facts.opened
  if (!sitting) return []
  const raised = facts.exceptions.flatMap(({ kind }) => HOLD_WHYS.find((why) => why === kind) ?? [])
  const refused: readonly HoldWhy[] = facts.consent?.given === false ? ['consentRefused'] : []
  const all = [...raised, ...refused, ...wristbandDoubt(facts)]
  return all.map((why, index) => ({
    drawId,
    why,
    nth: all.slice(0, index + 1).filter((other) => other === why).length,
  }))
}

/** A wristband that differed to the end is a doubt of its own where nobody raised it as one. */
function wristbandDoubt({ identifiers, exceptions }: DrawFacts): readonly HoldWhy[] {
  const last = identifiers.findLast(({ identifier }) => identifier === 'recordNumber')
  const isRaised = exceptions.some(({ kind }) => kind === 'identityMismatch')
  return last?.matches === false && !isRaised ? ['identityMismatch'] : []
}

/** Holds that no go-ahead names. */
export function openHolds(
  holds: readonly SeriesHold[],
  goAheads: readonly SeriesGoAhead[],
): readonly SeriesHold[] {
  const passed = new Set(goAheads.flatMap((each) => each.holds.map(holdKey)))
  return holds.filter((hold) => !passed.has(holdKey(hold)))
}

/** Holds of a draw as its own record tells them, as long as samples of its series are left that wait. */
export function waitingHolds(facts: DrawFacts): readonly SeriesHold[] {
  const { parts = [], later = [] } = facts.opened.sitting ?? {}
  const served = new Set(labeledTubes(facts).flatMap(({ tube }) => tube.tests))
  const gone = new Set(facts.leftOut.flatMap(({ sittings }) => sittings.map(sittingKey)))
  const own = facts.closed
    ? parts.filter(({ tests }) => !tests.some((test) => served.has(test)))
    : []
  const isLeft = [...own, ...later].some((part) => !gone.has(sittingKey(part)))
  return isLeft ? openHolds(holdsOf(facts), facts.wentOn) : []
}
