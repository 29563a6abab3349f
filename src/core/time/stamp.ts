/**
 * One look at both clocks. `wall_ms` is Unix time and may be set forward or back by a person or by the network;
 * `mono_ms` never goes back but starts again with every page load, so it only compares within one `boot`.
 */
export interface Reading {
  readonly wall_ms: number
  readonly mono_ms: number
  readonly boot: string
  /** Minutes east of UTC at that moment, for writing local times. */
  readonly offset_min: number
}

/** A reading placed in a log: `at_ms` is the charted time, Unix ms, never before the entry ahead of it. */
export interface Stamp extends Reading {
  readonly at_ms: number
}

/** Wall and monotonic clocks that part by more than this have been set, or the machine has slept. */
export const CLOCK_STEP_ms = 1500

/**
 * Places a reading after the stamp before it.
 * The charted time follows the wall clock while that runs forward; a wall clock set back is bridged by the
 * monotonic clock of the same boot, and across boots the time stands still rather than run backwards.
 */
export function stampAfter(previous: Stamp | undefined, now: Reading): Stamp {
  if (!previous) return { ...now, at_ms: now.wall_ms }
  const bridged = previous.at_ms + Math.max(0, now.mono_ms - previous.mono_ms)
  // Held against the charted time, not the last reading: once set back, the wall clock stays behind it.
  const behind = previous.boot === now.boot && now.wall_ms < bridged - CLOCK_STEP_ms
  return { ...now, at_ms: Math.max(previous.at_ms, behind ? bridged : now.wall_ms) }
}

/**
 * How far the wall clock moved beyond the monotonic one between two readings of one boot, ms.
 * Positive: the machine slept or the clock was set forward (a page cannot tell which). 0 across boots.
 */
export function clockStep_ms(from: Reading, to: Reading): number {
  if (from.boot !== to.boot) return 0
  return to.wall_ms - from.wall_ms - (to.mono_ms - from.mono_ms)
}

/** The least and the most time that can have passed; they differ when a clock stepped between the readings. */
export interface Elapsed {
  readonly least_ms: number
  readonly most_ms: number
}

/**
 * Time from one reading to another. Limits (the band) are held against `most_ms`, waits (drying, rest, pressure)
 * against `least_ms`, so that a stepped clock always errs to the safe side.
 */
export function elapsed(from: Reading, to: Reading): Elapsed {
  const wall_ms = to.wall_ms - from.wall_ms
  if (from.boot !== to.boot) {
    // Only the wall clock spans a reload. If it ran backwards nothing is known: the longest must be assumed.
    return wall_ms >= 0
      ? { least_ms: wall_ms, most_ms: wall_ms }
      : { least_ms: 0, most_ms: Infinity }
  }
  const mono_ms = Math.max(0, to.mono_ms - from.mono_ms)
  const stepped = Math.abs(wall_ms - mono_ms) > CLOCK_STEP_ms
  if (!stepped) return { least_ms: mono_ms, most_ms: mono_ms }
  return { least_ms: mono_ms, most_ms: Math.max(mono_ms, wall_ms) }
}
