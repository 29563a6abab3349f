import { createEmitter } from '../../core/basics/emitter.ts'
import type { Sound } from '../../ports/sound.ts'

/** Plays nothing. Speaking begins and ends in the same moment. */
export function createSilentSound(): Sound {
  const speaking = createEmitter<boolean>()
  return {
    chime: () => undefined,
    speak() {
      speaking.emit(true)
      speaking.emit(false)
    },
    hush: () => undefined,
    setVolume: () => undefined,
    setSilent: () => undefined,
    test: () => Promise.resolve('silent'),
    onSpeaking: speaking.observe,
    onTrouble: () => () => undefined,
  }
}
