import { dueCues, nextCueIn_ms } from '../../core/protocol/dueCues.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import type { Clock } from '../../ports/clock.ts'

/** Wakes the draw when its next cue is due. Nothing ticks: after every change the time is worked out anew. */
export interface CueTimer {
  set(state: DrawState): void
  stop(): void
}

export function createCueTimer(clock: Clock, onDue: () => void): CueTimer {
  let cancel: (() => void) | undefined
  const stop = (): void => {
    cancel?.()
    cancel = undefined
  }
  return {
    stop,
    set(state) {
      stop()
      const now = clock.read()
      // A cue may be due in the very moment in which its clock begins.
      const wait_ms = dueCues(state, now).length > 0 ? 0 : nextCueIn_ms(state, now)
      if (wait_ms !== undefined) cancel = clock.wakeAt(now.mono_ms + wait_ms, onDue)
    },
  }
}
