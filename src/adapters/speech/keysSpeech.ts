import { createEmitter } from '../../core/basics/emitter.ts'
import type { Speech, SpeechState } from '../../ports/speech.ts'

/** Voice switched off: nothing is heard, and touch and keys do all the work. */
export function createKeysSpeech(): Speech {
  const states = createEmitter<SpeechState>()
  const nothing = (): (() => void) => () => undefined
  const off = (): Promise<void> => {
    states.emit({ kind: 'off' })
    return Promise.resolve()
  }
  return {
    start: off,
    stop: off,
    setPhrases: () => undefined,
    onHearing: nothing,
    onState: states.observe,
    onLevel: nothing,
  }
}
