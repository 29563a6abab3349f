import type { Clock } from '../../../ports/clock.ts'

/** Runs something every so often from one period from now on; returns a way to end it. */
export function every(clock: Clock, period_ms: number, run: () => void): () => void {
  let cancel: () => void
  const arm = (): void => {
    cancel = clock.wakeAt(clock.read().mono_ms + period_ms, () => {
      arm()
      run()
    })
  }
  arm()
  return () => cancel()
}

/** Resolves after so long. */
export const pause = (clock: Clock, length_ms: number): Promise<void> =>
  new Promise((resolve) => void clock.wakeAt(clock.read().mono_ms + length_ms, resolve))
