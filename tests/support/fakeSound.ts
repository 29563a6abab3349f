import type { Sound } from '../../src/ports/sound.ts'

/** A sound that remembers what was asked for. */
export interface FakeSound extends Sound {
  readonly chimes: string[]
  readonly spoken: string[]
}

export function fakeSound(): FakeSound {
  const chimes: string[] = []
  const spoken: string[] = []
  const nothing = (): (() => void) => () => undefined
  return {
    chimes,
    spoken,
    chime: (name) => void chimes.push(name),
    speak: (key) => void spoken.push(key),
    hush: () => undefined,
    setVolume: () => undefined,
    setSilent: () => undefined,
    onSpeaking: nothing,
    onTrouble: nothing,
  }
}
