import { defined } from '../basics/defined.ts'
import { isCard } from '../plan/plan.ts'
import { limit } from '../policy/policy.ts'
import type { Stamp } from '../time/stamp.ts'
import { COLD_PLACES, LEAVES, type BenchAct } from './benchEvents.ts'
import { isWet, wetCards } from './card.ts'
import { pulledAt } from './clocks.ts'
import type { Command } from './commands.ts'
import { impossible, record, type Decision } from './decision.ts'
import type { DrawEvent, Flag } from './events.ts'
import * as draw from './facts.ts'
import { isSpun } from './handled.ts'
import type { Impossible } from './impossible.ts'
import {
  isSpinning,
  leftAt,
  NOT_GONE_FAR,
  specimenWays,
  wayElapsed,
  type SpecimenWay,
} from './specimenWay.ts'
import type { DrawState, TubeProgress } from './state.ts'

/** A minute is written without its seconds, and two clocks never agree to the second. */
const AHEAD_ms = 60_000

/** One specimen that an act is about. */
interface Specimen {
  readonly tube: TubeProgress
  readonly way: SpecimenWay
}

/**
 * What is done with specimens after the draw, or heard of them. It is recorded for those of the tubes that it can be
 * true of and flagged where it came too early, too late or twice; an act that the log has is not written again.
 */
export function decideBench(
  s: DrawState,
  command: Extract<Command, { type: 'benchAct' | 'takeBackAct' }>,
  now: Stamp,
): Decision {
  if (command.type === 'takeBackAct') return takenBack(s, command.act)
  const { act } = command
  if (act.act !== undefined && s.acts.includes(act.act)) return impossible('alreadyDone')
  if (!draw.goesToLaboratory(s)) return impossible('noSpecimens')
  if (act.type === 'courierTook' && !s.closed) return impossible('notClosed')
  const named = new Set(act.tubeIds)
  const found = draw.specimens(s).filter(({ id }) => named.has(id))
  if (found.length === 0) return impossible('noSpecimens')
  const ways = specimenWays(
    s.kept,
    draw.specimens(s).map(({ id }) => id),
  )
  const specimens = found.map((tube) => ({ tube, way: ways.get(tube.id) ?? NOT_GONE_FAR }))
  const { at_ms, wasMoved } = toldTime(act.at_ms, found, now)
  const at: Stamp = at_ms === undefined ? now : { ...now, at_ms, wall_ms: at_ms, boot: '' }
  const judged = specimens.map((each) => ({ ...each, why: cannotBe(s, each, act, at) }))
  const able = judged.filter(({ why }) => why === undefined)
  const [first] = judged
  if (able.length === 0) return impossible(first?.why ?? 'noSpecimens')
  const { at_ms: _told, ...done } = act
  const event: DrawEvent = defined({ ...done, tubeIds: able.map(({ tube }) => tube.id), at_ms })
  const flags = new Set(able.flatMap((each) => flagsOf(s, each, act, at)))
  if (wasMoved) flags.add('actTimeUncertain')
  return record(event, ...[...flags].map((flag): DrawEvent => ({ type: 'flagRaised', flag })))
}

/** Nothing is done to a tube before it is drawn, or in time to come: such a time is of a clock that was wrong. */
function toldTime(
  told_ms: number | undefined,
  tubes: readonly TubeProgress[],
  now: Stamp,
): { readonly at_ms?: number; readonly wasMoved: boolean } {
  if (told_ms === undefined) return { wasMoved: false }
  const drawn_ms = Math.max(...tubes.map(({ off }) => off?.at_ms ?? 0))
  if (!Number.isFinite(told_ms) || told_ms > now.at_ms + AHEAD_ms) return { wasMoved: true }
  return told_ms < drawn_ms
    ? { at_ms: drawn_ms, wasMoved: true }
    : { at_ms: told_ms, wasMoved: false }
}

/** Why it cannot have happened to that specimen. */
function cannotBe(
  s: DrawState,
  { tube, way }: Specimen,
  act: BenchAct,
  at: Stamp,
): Impossible | undefined {
  const planned = draw.planned(s, tube.id)
  const left = leftAt(way)
  const isGone = left !== undefined && at.at_ms >= left.at_ms
  if (isGone && !LEAVES.includes(act.type)) return 'withCourier'
  switch (act.type) {
    case 'spinStarted':
      if (isSpinning(way)) return 'alreadyDone'
      return isCard(planned) || planned?.role === 'culture' ? 'nothingToSpin' : undefined
    case 'spinEnded':
      return isSpinning(way) ? undefined : 'notInSpin'
    case 'separated':
      return way.separated ? 'alreadyDone' : undefined
    case 'stored':
      return way.stored?.where === act.where ? 'alreadyDone' : undefined
    case 'bagged':
      return way.bagged?.bag === act.bag ? 'alreadyDone' : undefined
    case 'courierTook':
      return left ? 'alreadyDone' : undefined
    case 'droppedOff':
      return (way.dropped ?? way.received) ? 'alreadyDone' : undefined
    case 'labReceived':
      return (way.received ?? way.rejected) ? 'alreadyDone' : undefined
    case 'labRejected':
      return way.rejected?.reason === act.reason ? 'alreadyDone' : undefined
    case 'aliquoted':
      return undefined
  }
}

function flagsOf(s: DrawState, { tube, way }: Specimen, act: BenchAct, at: Stamp): readonly Flag[] {
  const planned = draw.planned(s, tube.id)
  const { off } = tube
  if (!off) return []
  const since = wayElapsed(off, at)
  const separate_ms = 60_000 * limit(s.opened.policy, 'separate_min')
  const isLate = isSpun(planned) && since.most_ms > separate_ms
  const limit_min = planned?.timeLimit_min
  const drawn_ms = wayElapsed(pulledAt(s, tube) ?? off, at).most_ms
  const isOver = limit_min !== undefined && drawn_ms > 60_000 * limit_min
  switch (act.type) {
    case 'spinStarted':
      return flags({
        spunEarly: since.least_ms < 60_000 * (planned?.clot_min ?? 0),
        spunTwice: way.spins.length > 0,
        spunLate: way.spins.length === 0 && (isLate || isOver),
      })
    case 'separated':
      return flags({ separatedLate: isLate })
    case 'stored': {
      const isWhole = way.spins.length === 0 && !way.separated && !way.aliquots
      const mustStayWarm =
        planned?.role === 'culture' || (planned?.additive === 'citrate' && isWhole)
      const isIced = planned?.handling.includes('ice')
      return flags({ keptCold: mustStayWarm && !isIced && COLD_PLACES.includes(act.where) })
    }
    case 'courierTook':
    case 'droppedOff':
      return flags({
        cardWet: wetCards(s).includes(tube) && isWet(tube)(s, at),
        sentLate: isOver && way.spins.length === 0,
      })
    default:
      return []
  }
}

const flags = (found: Readonly<Partial<Record<Flag, boolean | undefined>>>): readonly Flag[] =>
  (Object.keys(found) as Flag[]).filter((flag) => found[flag])

/** Said in error: every entry of that act is taken back, with what was flagged in the same moment. */
function takenBack(s: DrawState, act: string): Decision {
  const acted = s.kept.filter(({ event }) => 'act' in event && event.act === act)
  if (acted.length === 0) return impossible('nothingToUndo')
  const flagged = s.kept.filter(
    ({ event, at, seq }) =>
      event.type === 'flagRaised' &&
      acted.some(
        (entry) => seq > entry.seq && at.boot === entry.at.boot && at.mono_ms === entry.at.mono_ms,
      ),
  )
  const seqs = [...acted, ...flagged].map(({ seq }) => seq).sort((a, b) => b - a)
  return record(...seqs.map((seq): DrawEvent => ({ type: 'entryUndone', seq })))
}
