import type { Sound } from '../../ports/sound.ts'

/** Plays nothing. Speaking begins and ends in the same moment. */
export function createSilentSound(): Sound {
  const listeners = new Set<(speaking: boolean) => void>()
  return {
    chime: () => undefined,
    speak() {
      listeners.forEach((listen) => listen(true))
      listeners.forEach((listen) => listen(false))
    },
    hush: () => undefined,
    setVolume: () => undefined,
    setSilent: () => undefined,
    onSpeaking(listener) {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
    onTrouble: () => () => undefined,
  }
}
