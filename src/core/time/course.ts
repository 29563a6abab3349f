/** Both clocks of one look, without the offset. */
interface Clocks {
  readonly wall_ms: number
  readonly mono_ms: number
  readonly boot: string
}

/** The least and the most time that can have passed; they differ when a clock stepped in between. */
export interface Elapsed {
  readonly least_ms: number
  readonly most_ms: number
}

/** Wall and monotonic clocks that part by more than this have been set, or the machine has slept. */
export const CLOCK_STEP_ms = 1500

/** A step of the wall clock that may have been a sleep: up to that much more time has passed. */
export interface Doubt {
  /** Place among the looks of the draw; the step came just before it. */
  readonly nth: number
  /** `Infinity` where nobody can know (the clock was set back while no page ran). */
  readonly most_ms: number
}

/** How far the wall clock stood ahead of the least time after a step, so that a clock set right again is known. */
interface Level {
  readonly nth: number
  readonly ahead_ms: number
}

/**
 * How the clocks have run from the first look of a draw up to this one. It is worked out from the looks in their
 * order and never written down, so that a record of any age is read with what is known of its clocks.
 */
export interface Course {
  readonly nth: number
  /** The least time since the first look. */
  readonly ran_ms: number
  /** Steps since then of which it is open whether time passed in them. */
  readonly doubts: readonly Doubt[]
  readonly levels: readonly Level[]
  /** The look of this boot that slow drift is measured against. */
  readonly anchor: Clocks & { readonly ran_ms: number }
  readonly last: Clocks
}

/** The course at the first look of a draw. */
export function firstCourse(now: Clocks): Course {
  return {
    nth: 0,
    ran_ms: 0,
    doubts: [],
    levels: [{ nth: 0, ahead_ms: now.wall_ms }],
    anchor: anchorAt(now, 0),
    last: now,
  }
}

/**
 * The course after one more look.
 * A wall clock that ran ahead of the page's own may have been set or the machine may have slept, which no page can
 * tell: it becomes a doubt. One that comes back to where it stood before was set, and its doubts are gone. A wall
 * clock that fell behind was set: no time passed in that.
 */
export function courseAfter(before: Course, now: Clocks): Course {
  const nth = before.nth + 1
  const sameBoot = before.anchor.boot === now.boot
  const from = sameBoot ? before.anchor : before.last
  const { least_ms, most_ms } = between(from, now)
  const since_ms = sameBoot ? before.anchor.ran_ms : before.ran_ms
  const ran_ms = Math.max(before.ran_ms, since_ms + least_ms)
  const stepped = sameBoot ? isStep(from, now) : most_ms > least_ms
  if (!stepped) {
    const anchor = sameBoot ? before.anchor : anchorAt(now, ran_ms)
    return { ...before, nth, ran_ms, anchor, last: now }
  }
  const ahead_ms = now.wall_ms - ran_ms
  // A clock that was set back while no page ran has hidden how long that was, wherever it stands now.
  const back = Number.isFinite(most_ms)
    ? before.levels.find((level) => Math.abs(level.ahead_ms - ahead_ms) <= CLOCK_STEP_ms)
    : undefined
  const settled = back
    ? before.doubts.filter((doubt) => doubt.nth <= back.nth || !Number.isFinite(doubt.most_ms))
    : before.doubts
  const doubts =
    back || most_ms <= least_ms ? settled : [...settled, { nth, most_ms: most_ms - least_ms }]
  const levels = back
    ? before.levels.filter((level) => level.nth <= back.nth)
    : [...before.levels, { nth, ahead_ms }]
  return { nth, ran_ms, doubts, levels, anchor: anchorAt(now, ran_ms), last: now }
}

/** Time between two looks of one draw, by everything known up to the later one. */
export function elapsedOn(from: Course, to: Course): Elapsed {
  const least_ms = Math.max(0, to.ran_ms - from.ran_ms)
  const open_ms = to.doubts
    .filter(({ nth }) => nth > from.nth)
    .reduce((sum, { most_ms }) => sum + most_ms, 0)
  return { least_ms, most_ms: least_ms + open_ms }
}

/** Time between two looks that nothing is known between. */
export function between(from: Clocks, to: Clocks): Elapsed {
  const wall_ms = to.wall_ms - from.wall_ms
  if (from.boot !== to.boot) {
    // Only the wall clock spans a reload. If it ran backwards nothing is known: the longest must be assumed.
    return wall_ms >= 0
      ? { least_ms: wall_ms, most_ms: wall_ms }
      : { least_ms: 0, most_ms: Infinity }
  }
  const mono_ms = Math.max(0, to.mono_ms - from.mono_ms)
  if (!isStep(from, to)) return { least_ms: mono_ms, most_ms: mono_ms }
  return { least_ms: mono_ms, most_ms: Math.max(mono_ms, wall_ms) }
}

function isStep(from: Clocks, to: Clocks): boolean {
  const mono_ms = Math.max(0, to.mono_ms - from.mono_ms)
  return Math.abs(to.wall_ms - from.wall_ms - mono_ms) > CLOCK_STEP_ms
}

const anchorAt = ({ wall_ms, mono_ms, boot }: Clocks, ran_ms: number): Course['anchor'] => ({
  wall_ms,
  mono_ms,
  boot,
  ran_ms,
})
