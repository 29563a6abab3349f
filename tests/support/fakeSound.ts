import { createEmitter } from '../../src/core/basics/emitter.ts'
import type { Sound, SoundTrouble } from '../../src/ports/sound.ts'

/** A sound that remembers what was asked for. */
export interface FakeSound extends Sound {
  readonly chimes: string[]
  readonly spoken: string[]
  /** A prompt begins to be heard, or has ended. */
  setSpeaking(speaking: boolean): void
  setTrouble(trouble: SoundTrouble | undefined): void
}

export function fakeSound(): FakeSound {
  const chimes: string[] = []
  const spoken: string[] = []
  const speaking = createEmitter<boolean>()
  const troubles = createEmitter<SoundTrouble | undefined>()
  return {
    chimes,
    spoken,
    setSpeaking: speaking.emit,
    chime: (name) => void chimes.push(name),
    speak: (key) => void spoken.push(key),
    hush: () => undefined,
    setVolume: () => undefined,
    setSilent: () => undefined,
    onSpeaking: speaking.observe,
    setTrouble: troubles.emit,
    test: () => Promise.resolve('played'),
    onTrouble: troubles.observe,
  }
}
