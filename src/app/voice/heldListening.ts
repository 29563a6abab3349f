import {
  EARS_CLOSED,
  isHeldOpen,
  moveEars,
  type HeldEars,
  type HeldLimits,
  type HeldMove,
  type HeldSpan,
} from '../../core/voice/heldEars.ts'
import type { Clock } from '../../ports/clock.ts'

export interface HeldListeningDeps {
  readonly clock: Clock
  readonly limits: HeldLimits
  /** Told with each move, and when a tap or the longest hold has ended. */
  readonly onChange: (isOpen: boolean, span: HeldSpan | undefined) => void
}

/** The ears of one draw, held open by a key, a pedal or the bar. */
export interface HeldListening {
  move(move: HeldMove): void
  isOpen(): boolean
  stop(): void
}

export function createHeldListening({ clock, limits, onChange }: HeldListeningDeps): HeldListening {
  let ears: HeldEars = EARS_CLOSED
  let cancelEnd: (() => void) | undefined
  const isOpen = (): boolean => isHeldOpen(ears, clock.read().mono_ms)
  const tell = (): void => onChange(isOpen(), ears.span)

  return {
    isOpen,
    move(move) {
      ears = moveEars(ears, move, clock.read().mono_ms, limits)
      cancelEnd?.()
      const { to_ms } = ears.span ?? {}
      cancelEnd = isOpen() && to_ms !== undefined ? clock.wakeAt(to_ms, tell) : undefined
      tell()
    },
    stop: () => cancelEnd?.(),
  }
}
