import { elapsed, stampAfter, type Reading, type Stamp } from '../time/stamp.ts'
import { defined } from '../basics/defined.ts'
import { clocksOf, type Cue, type DrawClock } from './clocks.ts'
import { cueKey, writeCue, type CueRef } from './cueId.ts'
import type { DrawState } from './state.ts'

/** A cue whose time has come. */
export interface DueCue {
  readonly cue: CueRef
  readonly late_ms: number
}

/** The newest call of a clock, and the time after the clock's start at which it was due. */
interface Call extends Cue {
  readonly repeat?: CueRef['repeat']
}

/** What a clock shows: limits the longest time that can have passed, waits and windows the shortest. */
export function shown_ms(
  s: { readonly last?: { readonly at: Stamp } },
  clock: DrawClock,
  now: Reading,
): number {
  const passed = elapsed(clock.from, stampAfter(s.last?.at, now))
  return clock.holds === 'limit' ? passed.most_ms : passed.least_ms
}

/** What tells which cues are due: the clocks that run, the last entry, and the cues that were given. */
export interface RunningClocks {
  readonly clocks: readonly DrawClock[]
  readonly last?: { readonly at: Stamp }
  readonly cues: readonly string[]
}

/**
 * Cues that are due and not yet given, at most one for each clock: after a sleep or a reload only the newest is
 * worth saying.
 */
export function dueCues(s: DrawState, now: Reading): readonly DueCue[] {
  return dueCuesOf(defined({ clocks: clocksOf(s), last: s.last, cues: s.cues }), now)
}

/** The same for clocks that were worked out before. */
export function dueCuesOf(running: RunningClocks, now: Reading): readonly DueCue[] {
  return running.clocks.flatMap((clock) => {
    const passed_ms = shown_ms(running, clock, now)
    const call = latest(clock, passed_ms, now)
    if (!call) return []
    const { kind, ordinal, from_ms } = clock
    const cue: CueRef = defined({ kind, ordinal, from_ms, cue: call.name, repeat: call.repeat })
    if (running.cues.includes(cueKey(writeCue(cue)))) return []
    return [
      { cue, late_ms: Number.isFinite(passed_ms) ? Math.round(passed_ms - call.after_ms) : 0 },
    ]
  })
}

/** Milliseconds from now to the next cue of any clock; `undefined` when none is to come. */
export function nextCueIn_ms(s: DrawState, now: Reading): number | undefined {
  const waits = clocksOf(s).flatMap((clock) => {
    const passed_ms = shown_ms(s, clock, now)
    const wait_ms = untilNext_ms(clock, passed_ms, now)
    return wait_ms === undefined ? [] : [wait_ms]
  })
  return waits.length > 0 ? Math.min(...waits) : undefined
}

function latest(clock: DrawClock, passed_ms: number, now: Reading): Call | undefined {
  const last = clock.cues.at(-1)
  if (clock.repeat_ms && last && passed_ms >= last.after_ms + clock.repeat_ms) {
    // How long is not known (the clock was set back over a reload): the alarm keeps the beat of this page.
    if (!Number.isFinite(passed_ms)) {
      const beat = Math.floor(now.mono_ms / clock.repeat_ms)
      return { ...last, repeat: { boot: now.boot, beat } }
    }
    const times = Math.floor((passed_ms - last.after_ms) / clock.repeat_ms)
    return { ...last, repeat: times, after_ms: last.after_ms + times * clock.repeat_ms }
  }
  return clock.cues.filter((cue) => cue.after_ms <= passed_ms).at(-1)
}

function untilNext_ms(clock: DrawClock, passed_ms: number, now: Reading): number | undefined {
  const next = clock.cues.find((cue) => cue.after_ms > passed_ms)
  if (next) return next.after_ms - passed_ms
  const last = clock.cues.at(-1)
  if (!clock.repeat_ms || !last) return undefined
  const beat_ms = Number.isFinite(passed_ms) ? passed_ms - last.after_ms : now.mono_ms
  return clock.repeat_ms - (beat_ms % clock.repeat_ms)
}
