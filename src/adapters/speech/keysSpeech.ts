import type { Speech, SpeechState } from '../../ports/speech.ts'

/** Voice switched off: nothing is heard, and touch and keys do all the work. */
export function createKeysSpeech(): Speech {
  const states = new Set<(state: SpeechState) => void>()
  const nothing = (): (() => void) => () => undefined
  const tell = (): Promise<void> => {
    states.forEach((listener) => listener({ kind: 'off' }))
    return Promise.resolve()
  }
  return {
    start: tell,
    stop: tell,
    setPhrases: () => undefined,
    onHearing: nothing,
    onState: (listener) => {
      states.add(listener)
      return () => void states.delete(listener)
    },
    onLevel: nothing,
  }
}
