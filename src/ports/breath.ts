import type { Clock } from './clock.ts'
import { wakeIn } from './patience.ts'

/** A person notices a press that is answered later than some 100 ms. */
const LONG_ms = 40

/** Lets the page answer a press where work has taken long; asked in the midst of work that goes on and on. */
export function createBreath(clock: Clock): () => Promise<void> {
  let since_ms = clock.read().mono_ms
  return async () => {
    if (clock.read().mono_ms - since_ms < LONG_ms) return
    await new Promise<void>((resolve) => void wakeIn(clock, 0, resolve))
    since_ms = clock.read().mono_ms
  }
}
