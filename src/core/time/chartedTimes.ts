import { CLOCK_STEP_ms } from './course.ts'
import { onCourse, type Stamp } from './stamp.ts'

/**
 * The times of a log by everything that is known at its end. A clock that ran ahead for a while and was set right
 * again has left times that are too late; here they are put right, and what was written stays in the log.
 *
 * A time is the wall clock's own where that can be true: not before the least and not after the most time that can
 * have passed since the first stamp, nor after the time that follows. So it is wrong by no more than what nobody can
 * know, and times never run backwards. The clock of the first stamp counts as right.
 */
export function chartedTimes(stamps: readonly Stamp[]): readonly Stamp[] {
  const known: Stamp[] = []
  for (const stamp of stamps) known.push(onCourse(known.at(-1), stamp))
  return putRight(known)
}

function putRight(known: readonly Stamp[]): readonly Stamp[] {
  const first_ms = known[0]?.at_ms ?? 0
  const doubts = known.at(-1)?.course?.doubts ?? []
  let next_ms = Infinity
  return known
    .toReversed()
    .map((stamp) => {
      const ran_ms = stamp.course?.ran_ms ?? 0
      const nth = stamp.course?.nth ?? 0
      const open_ms = doubts
        .filter((doubt) => doubt.nth <= nth)
        .reduce((sum, { most_ms }) => sum + most_ms, 0)
      const at_ms = Math.min(likely_ms(stamp, first_ms + ran_ms, open_ms), next_ms)
      next_ms = at_ms
      return { ...stamp, at_ms }
    })
    .toReversed()
}

/** The wall clock where it can be true, else the end of what can be true that is nearer to it. */
function likely_ms({ wall_ms, at_ms }: Stamp, least_ms: number, open_ms: number): number {
  const most_ms = least_ms + open_ms
  const fits = wall_ms >= least_ms - CLOCK_STEP_ms && wall_ms <= most_ms + CLOCK_STEP_ms
  const likely = fits ? wall_ms : Math.min(Math.max(wall_ms, least_ms), most_ms)
  // Drift within the tolerance is no reason to write another second than the log.
  return Math.abs(likely - at_ms) <= CLOCK_STEP_ms ? at_ms : likely
}
