import { limit, limit_ms, type LimitKey } from '../policy/policy.ts'
import type { Stamp } from '../time/stamp.ts'
import * as draw from './facts.ts'
import type { DrawState } from './state.ts'

/** The sounds a clock may ask for; the words spoken with them are found by clock and cue in the prompts file. */
export type CueChime = 'nearlyUp' | 'timeUp' | 'tubeFull' | 'mixNow'

/** A moment on a clock at which the app speaks up. */
export interface Cue {
  readonly id: string
  readonly after_ms: number
  readonly chime?: CueChime
}

/**
 * A running clock, worked out from the state: a start and lengths, never ticks.
 * `limit` must not be passed (the band), `wait` must have passed (drying), `window` is about when (a tube's fill).
 */
export interface DrawClock {
  /** Kind, ordinal and start, `band#2@1764057600000`: the same after a reload, another after a start said anew. */
  readonly id: string
  readonly kind: ClockKind
  readonly holds: 'limit' | 'wait' | 'window'
  readonly from: Stamp
  readonly length_ms: number
  readonly cues: readonly Cue[]
  /** After the last cue it is repeated this often until the clock ends. */
  readonly repeat_ms?: number
}

export const CLOCK_KINDS = ['band', 'rest', 'drying', 'flash', 'fill', 'mix', 'pressure', 'watch', 'faint', 'exposure', 'clot', 'spinBy'] as const // prettier-ignore
export type ClockKind = (typeof CLOCK_KINDS)[number]

/** Every clock that runs in this state, the most pressing first. */
export function clocksOf(s: DrawState): readonly DrawClock[] {
  if (!s.opened) return []
  return [...band(s), ...flash(s), ...fill(s), ...mix(s), ...skin(s), ...rest(s), ...pressure(s), ...faint(s), ...exposure(s), ...clot(s)]
} // prettier-ignore

function ms(s: DrawState, key: LimitKey): number {
  return s.opened ? limit_ms(s.opened.policy, key) : 0
}

function band(s: DrawState): DrawClock[] {
  const on = draw.currentBand(s)
  if (!on) return []
  const cues: Cue[] = [
    { id: 'first', after_ms: ms(s, 'bandFirstCue_s'), chime: 'nearlyUp' },
    { id: 'second', after_ms: ms(s, 'bandSecondCue_s'), chime: 'nearlyUp' },
    { id: 'last', after_ms: ms(s, 'bandLastCue_s'), chime: 'nearlyUp' },
    { id: 'up', after_ms: ms(s, 'bandLimit_s'), chime: 'timeUp' },
  ]
  return [
    {
      id: `band#${s.bands.length}@${on.on.at_ms}`,
      kind: 'band',
      holds: 'limit',
      from: on.on,
      length_ms: ms(s, 'bandLimit_s'),
      cues,
      repeat_ms: ms(s, 'bandAlarmRepeat_s'),
    },
  ]
}

/** Runs only where the band is still wanted: before blood has come. */
function rest(s: DrawState): DrawClock[] {
  const off = draw.lastBandHere(s)?.off
  const wanted = !s.puncture.needleIn && !s.puncture.ending && !s.closed
  if (!off || !wanted || draw.bandIsOn(s)) return []
  return [wait(`rest#${s.bands.length}@${off.at_ms}`, 'rest', off, ms(s, 'bandRest_s'), 'timeUp')]
}

function skin(s: DrawState): DrawClock[] {
  const { cleaned, dry, needleIn, number } = s.puncture
  if (!cleaned || dry || needleIn) return []
  return [wait(`drying#${number}@${cleaned.at_ms}`, 'drying', cleaned, ms(s, 'drying_s'), 'timeUp')]
}

function flash(s: DrawState): DrawClock[] {
  const { needleIn, flash: seen, number } = s.puncture
  if (!needleIn || seen || !draw.needleIsIn(s) || draw.anyTubeIn(s, number)) return []
  return [wait(`flash#${number}@${needleIn.at_ms}`, 'flash', needleIn, ms(s, 'flashWait_s'))]
}

function fill(s: DrawState): DrawClock[] {
  const tube = draw.tubeInHolder(s)
  const window = tube && draw.planned(s, tube.id)?.fill
  if (!tube?.on || !window) return []
  const cues: Cue[] = [
    { id: 'full', after_ms: window.expected_s * 1000, chime: 'tubeFull' },
    { id: 'late', after_ms: window.late_s * 1000 },
  ]
  const length_ms = window.expected_s * 1000
  return [
    {
      id: `fill#${tube.id}@${tube.on.at_ms}`,
      kind: 'fill',
      holds: 'window',
      from: tube.on,
      length_ms,
      cues,
    },
  ]
}

function mix(s: DrawState): DrawClock[] {
  const tube = draw.unmixed(s)[0]
  if (!tube?.off) return []
  const cues: Cue[] = [
    { id: 'now', after_ms: 0, chime: 'mixNow' },
    { id: 'still', after_ms: ms(s, 'mixStart_s'), chime: 'mixNow' },
  ]
  const length_ms = ms(s, 'mixLate_s')
  return [
    {
      id: `mix#${tube.id}@${tube.off.at_ms}`,
      kind: 'mix',
      holds: 'limit',
      from: tube.off,
      length_ms,
      cues,
    },
  ]
}

function pressure(s: DrawState): DrawClock[] {
  const { pressureOn, bleedingStopped, bandage, number } = s.puncture
  if (!s.opened || !pressureOn || bandage) return []
  if (bleedingStopped) {
    return [
      wait(
        `watch#${number}@${bleedingStopped.at_ms}`,
        'watch',
        bleedingStopped,
        ms(s, 'siteWatch_s'),
        'timeUp',
      ),
    ]
  }
  const length_ms = draw.pressureNeeded_s(s, s.opened.policy) * 1000
  return [
    wait(`pressure#${number}@${pressureOn.at_ms}`, 'pressure', pressureOn, length_ms, 'timeUp'),
  ]
}

function faint(s: DrawState): DrawClock[] {
  const open = s.exceptions.find(({ kind }) => kind === 'faint')
  return open
    ? [wait(`faint#${open.at.at_ms}`, 'faint', open.at, ms(s, 'faintRest_min'), 'timeUp')]
    : []
}

/** Time since a needlestick, against the window for prophylaxis. It only shows: it never calls. */
function exposure(s: DrawState): DrawClock[] {
  const open = s.exceptions.find(({ kind }) => kind === 'needlestick')
  if (!open) return []
  const length_ms = ms(s, 'prophylaxisWindow_h')
  return [
    {
      id: `exposure#${open.at.at_ms}`,
      kind: 'exposure',
      holds: 'limit',
      from: open.at,
      length_ms,
      cues: [],
    },
  ]
}

/** Clotting, the longest wait of the tubes not yet spun, and the time by which they must be. */
function clot(s: DrawState): DrawClock[] {
  if (s.courier) return []
  const standing = draw.specimens(s).flatMap((tube) => {
    const clot_min = draw.planned(s, tube.id)?.clot_min
    return clot_min === undefined || !tube.off || s.spun.includes(tube.id)
      ? []
      : [{ tube, off: tube.off, clot_min }]
  })
  const first = standing[0]
  if (!first) return []
  const last = standing.reduce((a, b) =>
    b.off.at_ms + b.clot_min * 60_000 > a.off.at_ms + a.clot_min * 60_000 ? b : a,
  )
  const policy = s.opened?.policy ?? neverAsked()
  // Spinning is what separates the serum, so the earlier of the two limits is the one to keep.
  const most_min = Math.min(limit(policy, 'clotMost_min'), limit(policy, 'separate_min'))
  return [
    wait(
      `clot#${last.tube.id}@${last.off.at_ms}`,
      'clot',
      last.off,
      last.clot_min * 60_000,
      'timeUp',
    ),
    {
      id: `spinBy#${first.tube.id}@${first.off.at_ms}`,
      kind: 'spinBy',
      holds: 'limit',
      from: first.off,
      length_ms: most_min * 60_000,
      cues: [{ id: 'up', after_ms: most_min * 60_000, chime: 'timeUp' }],
    },
  ]
}

function neverAsked(): never {
  throw new Error('A clock was asked for before the draw was opened.')
}

function wait(
  id: string,
  kind: ClockKind,
  from: Stamp,
  length_ms: number,
  chime?: CueChime,
): DrawClock {
  return {
    id,
    kind,
    holds: 'wait',
    from,
    length_ms,
    cues: [{ id: 'up', after_ms: length_ms, ...(chime ? { chime } : {}) }],
  }
}
