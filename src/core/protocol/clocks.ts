import { slowAfter_s } from '../flow/slowAfter.ts'
import { limit, limit_ms, type LimitKey } from '../policy/policy.ts'
import type { Stamp } from '../time/stamp.ts'
import { dryingNeeded_s } from './antisepticChoice.ts'
import { bandNeedsRest } from './bandTime.ts'
import { wetCards } from './card.ts'
import type { ClockKind, CueName } from './clockTable.ts'
import type { ClockRef } from './cueId.ts'
import * as draw from './facts.ts'
import { isSpun } from './handled.ts'
import type { DrawState, TubeProgress } from './state.ts'
import { hasSyringe, showsFlash, waitsInSyringe } from './syringe.ts'

/** A moment on a clock at which the app speaks up. */
export interface Cue {
  readonly name: CueName
  readonly after_ms: number
}

/**
 * A running clock, worked out from the state: a start and lengths, never ticks.
 * `limit` must not be passed (the band), `wait` must have passed (drying), `window` is about when (a tube's fill).
 */
export interface DrawClock extends ClockRef {
  readonly holds: 'limit' | 'wait' | 'window'
  readonly from: Stamp
  readonly length_ms: number
  readonly cues: readonly Cue[]
  /** After the last cue it is repeated this often until the clock ends. */
  readonly repeat_ms?: number
}

/** Every clock that runs in this state, the most pressing first. */
export function clocksOf(s: DrawState): readonly DrawClock[] {
  return [
    band,
    flash,
    fill,
    transfer,
    mix,
    skin,
    warming,
    rest,
    pressure,
    faint,
    exposure,
    timeLimits,
    clot,
    cardDry,
  ].flatMap((each) => each(s))
}

function ms(s: DrawState, key: LimitKey): number {
  return limit_ms(s.opened.policy, key)
}

function band(s: DrawState): DrawClock[] {
  const on = draw.currentBand(s)
  if (!on) return []
  const cues: Cue[] = [
    { name: 'first', after_ms: ms(s, 'bandFirstCue_s') },
    { name: 'second', after_ms: ms(s, 'bandSecondCue_s') },
    { name: 'last', after_ms: ms(s, 'bandLastCue_s') },
    { name: 'up', after_ms: ms(s, 'bandLimit_s') },
  ]
  const length_ms = ms(s, 'bandLimit_s')
  const repeat_ms = ms(s, 'bandAlarmRepeat_s')
  return [{ ...since('band', s.bands.length, on.on), holds: 'limit', length_ms, cues, repeat_ms }]
}

/** Runs only where the band is still wanted, before blood has come, and the arm was under it too long. */
function rest(s: DrawState): DrawClock[] {
  const off = draw.lastBandHere(s)?.off
  const wanted = !s.puncture.needleIn && !s.puncture.ending && !s.closed
  if (!off || !wanted || draw.bandIsOn(s) || !bandNeedsRest(s)) return []
  return [wait(since('rest', s.bands.length, off), ms(s, 'bandRest_s'))]
}

function skin(s: DrawState): DrawClock[] {
  const { cleaned, dry, needleIn, number } = s.puncture
  if (!cleaned || dry || needleIn) return []
  return [wait(since('drying', number, cleaned), 1000 * dryingNeeded_s(s))]
}

/** How long a finger or heel is warmed. */
function warming(s: DrawState): DrawClock[] {
  const { warming: from, warm, needleIn, number } = s.puncture
  if (!from || warm || needleIn) return []
  const cues: Cue[] = [
    { name: 'enough', after_ms: ms(s, 'warmLeast_min') },
    { name: 'up', after_ms: ms(s, 'warmMost_min') },
  ]
  const length_ms = ms(s, 'warmMost_min')
  return [{ ...since('warming', number, from), holds: 'limit', length_ms, cues }]
}

function flash(s: DrawState): DrawClock[] {
  const { needleIn, flash: seen, number } = s.puncture
  if (draw.isCapillary(s) || !showsFlash(s) || s.puncture.pulled) return []
  if (!needleIn || seen || !draw.needleIsIn(s) || draw.anyTubeIn(s, number)) return []
  return [wait(since('flash', number, needleIn), ms(s, 'flashWait_s'))]
}

function fill(s: DrawState): DrawClock[] {
  const tube = draw.tubeInHolder(s)
  const planned = tube && draw.planned(s, tube.id)
  // No vacuum ends the filling of a bottle: a person watches its mark, and no cue may say that it is full.
  if (!tube?.on || !planned || planned.fillsBy === 'mark' || draw.isCapillary(s)) return []
  if (hasSyringe(s)) return []
  const window = planned.fill
  const length_ms = window.expected_s * 1000
  // A discard tube need not be full, and a window that cannot be trusted says nothing about the flow.
  const full: Cue[] = planned.role === 'discard' ? [] : [{ name: 'full', after_ms: length_ms }]
  const slow_s = planned.role === 'discard' ? undefined : slowAfter_s(window)
  const late: Cue[] = slow_s === undefined ? [] : [{ name: 'late', after_ms: slow_s * 1000 }]
  const cues = [...full, ...late]
  return [{ ...since('fill', tube.id, tube.on), holds: 'window', length_ms, cues }]
}

/** When the blood of a tube left the vein, where that was into a syringe. */
export const pulledAt = (s: DrawState, { puncture }: TubeProgress): Stamp | undefined =>
  draw.allPunctures(s).find(({ number }) => number === puncture)?.pulled?.at

/** From the last pull of the syringe to its last tube: blood clots in it as in any plain tube. */
function transfer(s: DrawState): DrawClock[] {
  const { pulled, number } = s.puncture
  if (!pulled || !waitsInSyringe(s) || s.closed) return []
  const length_ms = ms(s, 'transferMost_s')
  const cues: Cue[] = [
    { name: 'near', after_ms: (length_ms * 3) / 4 },
    { name: 'up', after_ms: length_ms },
  ]
  return [{ ...since('transfer', number, pulled.at), holds: 'limit', length_ms, cues }]
}

function mix(s: DrawState): DrawClock[] {
  const tube = draw.unmixed(s)[0]
  if (!tube?.off) return []
  const cues: Cue[] = [
    { name: 'now', after_ms: 0 },
    { name: 'still', after_ms: ms(s, 'mixStart_s') },
  ]
  const length_ms = ms(s, 'mixLate_s')
  return [{ ...since('mix', tube.id, tube.off), holds: 'limit', length_ms, cues }]
}

function pressure(s: DrawState): DrawClock[] {
  const { pressureOn, bleedingStopped, bandage, number } = s.puncture
  // Nobody waits a length of time for a lanced place: it is pressed until it has stopped.
  if (!pressureOn || bandage || draw.isCapillary(s)) return []
  if (bleedingStopped) {
    return [wait(since('watch', number, bleedingStopped), ms(s, 'siteWatch_s'))]
  }
  const length_ms = draw.pressureNeeded_s(s) * 1000
  return [wait(since('pressure', number, pressureOn), length_ms)]
}

function faint(s: DrawState): DrawClock[] {
  const open = s.exceptions.find(({ kind }) => kind === 'faint')
  return open ? [wait(since('faint', undefined, open.at), ms(s, 'faintRest_min'))] : []
}

/** Time since a needlestick until it is settled, against the window for prophylaxis. It only shows: it never calls. */
function exposure(s: DrawState): DrawClock[] {
  if (!s.pricked || !draw.prickIsOpen(s)) return []
  const length_ms = ms(s, 'prophylaxisWindow_h')
  return [{ ...since('exposure', undefined, s.pricked.at), holds: 'limit', length_ms, cues: [] }]
}

/**
 * From the collection of each tube to the time by which the first test in it must be with the laboratory or spun:
 * ammonia 15 min to the start of centrifugation, lactate 30 min (laboratory pages). Limits of hours are shown, the
 * nearest alone, once the patient is done with.
 */
function timeLimits(s: DrawState): DrawClock[] {
  if (s.courier) return []
  const open = draw.specimens(s).flatMap((tube) => {
    const limit_min = draw.planned(s, tube.id)?.timeLimit_min
    const { id } = tube
    const off = pulledAt(s, tube) ?? tube.off
    if (limit_min === undefined || !off || s.spun.includes(id) || s.sent.includes(id)) return []
    const length_ms = limit_min * 60_000
    return [{ id, off, length_ms, up_ms: off.at_ms + length_ms }]
  })
  const sorted = [...open].sort((a, b) => a.up_ms - b.up_ms)
  const short = sorted.filter(({ length_ms }) => length_ms <= SHORT_ms)
  const long = s.closed && short.length === 0 ? sorted.slice(0, 1) : []
  return [...short, ...long].map(({ id, off, length_ms }): DrawClock => {
    const near_ms = length_ms - Math.min(NEAR_ms, length_ms / 3)
    const cues: Cue[] = [
      { name: 'near', after_ms: near_ms },
      { name: 'up', after_ms: length_ms },
    ]
    return { ...since('timeLimit', id, off), holds: 'limit', length_ms, cues }
  })
}

/** Time limits that somebody at the chair must keep in mind, and how long before the end they are called out. */
const SHORT_ms = 120 * 60_000
const NEAR_ms = 5 * 60_000

/**
 * Clotting, the longest wait of the serum tubes not yet spun, and the time by which all that are spun must be: serum
 * and plasma within two hours (laboratory handbook pages).
 */
function clot(s: DrawState): DrawClock[] {
  if (s.courier) return []
  const standing = draw.specimens(s).flatMap((tube) => {
    const planned = draw.planned(s, tube.id)
    const isDone = s.spun.includes(tube.id) || s.sent.includes(tube.id)
    return !isSpun(planned) || !tube.off || isDone
      ? []
      : [{ tube, off: tube.off, clot_min: planned?.clot_min }]
  })
  const first = standing[0]
  if (!first) return []
  const serum = standing.flatMap(({ clot_min, ...each }) =>
    clot_min === undefined
      ? []
      : [{ ...each, clot_min, up_ms: each.off.at_ms + clot_min * 60_000 }],
  )
  const last = [...serum].sort((a, b) => b.up_ms - a.up_ms)[0]
  const { policy } = s.opened
  // Spinning is what separates it from the cells, so for serum the earlier of the two limits is the one to keep.
  const separate_min = limit(policy, 'separate_min')
  const most_min = last ? Math.min(limit(policy, 'clotMost_min'), separate_min) : separate_min
  return [
    ...(last ? [wait(since('clot', last.tube.id, last.off), last.clot_min * 60_000)] : []),
    {
      ...since('spinBy', first.tube.id, first.off),
      holds: 'limit',
      length_ms: most_min * 60_000,
      cues: [{ name: 'up', after_ms: most_min * 60_000 }],
    },
  ]
}

/** A card lies flat until it is dry; it is sent only then. */
function cardDry(s: DrawState): DrawClock[] {
  if (s.courier) return []
  return wetCards(s).flatMap(({ id, handled }) =>
    handled?.dryFlat ? [wait(since('cardDry', id, handled.dryFlat), ms(s, 'cardDry_h'))] : [],
  )
}

function since(
  kind: ClockKind,
  ordinal: number | string | undefined,
  from: Stamp,
): ClockRef & { readonly from: Stamp } {
  const from_ms = from.at_ms
  return ordinal === undefined
    ? { kind, from, from_ms }
    : { kind, ordinal: String(ordinal), from, from_ms }
}

function wait(start: ClockRef & { readonly from: Stamp }, length_ms: number): DrawClock {
  return { ...start, holds: 'wait', length_ms, cues: [{ name: 'up', after_ms: length_ms }] }
}
