import { createBreath } from '../../ports/breath.ts'
import type { Clock } from '../../ports/clock.ts'

/** So many logs at once. */
const AT_ONCE_n = 8

/** Works on all of them, in their order, and lets the page answer a press in between. */
export async function aFewAtATime<T, R>(
  clock: Clock,
  all: readonly T[],
  work: (each: T) => Promise<R>,
): Promise<readonly R[]> {
  const done: R[] = []
  const breathe = createBreath(clock)
  for (let at = 0; at < all.length; at += AT_ONCE_n) {
    done.push(...(await Promise.all(all.slice(at, at + AT_ONCE_n).map(work))))
    await breathe()
  }
  return done
}
