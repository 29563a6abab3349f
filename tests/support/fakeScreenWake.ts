import { createEmitter } from '../../src/core/basics/emitter.ts'
import type { ScreenWake, WakeState } from '../../src/ports/screenWake.ts'

export interface FakeScreenWake extends ScreenWake {
  isHeld(): boolean
  say(state: WakeState): void
}

/** A screen that notes whether it is to stay lit, and says of itself what a test wants. */
export function fakeScreenWake(): FakeScreenWake {
  const states = createEmitter<WakeState>()
  let held = false
  return {
    hold: () => void (held = true),
    release: () => void (held = false),
    onState: states.observe,
    isHeld: () => held,
    say: (state) => states.emit(state),
  }
}
