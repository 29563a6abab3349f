import type { Elapsed } from '../time/course.ts'

/** A doubt of the clocks below this does not show in a time. */
const CERTAIN_ms = 1000

/** A length of time in s; `undefined` where the clocks leave a doubt. */
export function known_s({ least_ms, most_ms }: Elapsed): number | undefined {
  return most_ms - least_ms > CERTAIN_ms ? undefined : least_ms / 1000
}
