import type { Clock } from './clock.ts'

/** Calls back once after so long; returns a way to cancel. */
export function wakeIn(clock: Clock, wait_ms: number, wake: () => void): () => void {
  return clock.wakeAt(clock.read().mono_ms + wait_ms, wake)
}

/** The outcome of the work, or the error of `late` when it takes longer. What is given up may still happen. */
export function within<T>(
  clock: Clock,
  patience_ms: number,
  work: Promise<T>,
  late: () => Error,
): Promise<T> {
  return new Promise((resolve, reject) => {
    const cancel = wakeIn(clock, patience_ms, () => reject(late()))
    work.then(resolve, reject).finally(cancel)
  })
}
