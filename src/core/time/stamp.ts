import {
  between,
  CLOCK_STEP_ms,
  courseAfter,
  elapsedOn,
  firstCourse,
  type Course,
  type Elapsed,
} from './course.ts'

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
  /** How the clocks ran up to here: worked out whenever a log is read, never written into it. */
  readonly course?: Course
}

/**
 * Places a reading after the stamp before it.
 * The charted time follows the wall clock while that runs forward; a wall clock set back is bridged by the
 * monotonic clock of the same boot, and across boots the time stands still rather than run backwards. What a later
 * look shows of it is put right where the log is read, see `chartedTimes`.
 */
export function stampAfter(previous: Stamp | undefined, now: Reading): Stamp {
  if (!previous) return onCourse(undefined, { ...now, at_ms: now.wall_ms })
  const bridged = previous.at_ms + Math.max(0, now.mono_ms - previous.mono_ms)
  // Held against the charted time, not the last reading: once set back, the wall clock stays behind it.
  const behind = previous.boot === now.boot && now.wall_ms < bridged - CLOCK_STEP_ms
  const at_ms = Math.max(previous.at_ms, behind ? bridged : now.wall_ms)
  return onCourse(previous, { ...now, at_ms })
}

/** A stamp of a log with what is known of the clocks up to it. Give the stamps of one log in their order. */
export function onCourse(previous: Stamp | undefined, stamp: Stamp): Stamp {
  const before = previous?.course
  return { ...stamp, course: before ? courseAfter(before, stamp) : firstCourse(stamp) }
}

/** The part of a stamp that is written down. */
export function bareStamp({ at_ms, wall_ms, mono_ms, boot, offset_min }: Stamp): Stamp {
  return { at_ms, wall_ms, mono_ms, boot, offset_min }
}

/**
 * How far the wall clock moved beyond the monotonic one between two readings of one boot, ms.
 * Positive: the machine slept or the clock was set forward (a page cannot tell which). 0 across boots.
 */
export function clockStep_ms(from: Reading, to: Reading): number {
  if (from.boot !== to.boot) return 0
  return to.wall_ms - from.wall_ms - (to.mono_ms - from.mono_ms)
}

/**
 * Time from one reading to another. Limits (the band) are held against `most_ms`, waits (drying, rest, pressure)
 * against `least_ms`, so that a stepped clock always errs to the safe side. Stamps of one draw that know their
 * course use every step seen on the way; two bare readings have only each other.
 */
export function elapsed(from: Reading | Stamp, to: Reading | Stamp): Elapsed {
  const known = courseOf(from)
  const now = courseOf(to)
  return known && now ? elapsedOn(known, now) : between(from, to)
}

const courseOf = (look: Reading | Stamp): Course | undefined =>
  'course' in look ? look.course : undefined
