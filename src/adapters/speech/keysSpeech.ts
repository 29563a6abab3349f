import type { Speech } from '../../ports/speech.ts'

/** Voice switched off: nothing is heard, and touch and keys do all the work. */
export function keysSpeech(): Speech {
  const nothing = (): (() => void) => () => undefined
  return {
    start: () => Promise.resolve(),
    stop: () => Promise.resolve(),
    setPhrases: () => undefined,
    onHearing: nothing,
    onState: (listener) => {
      listener({ kind: 'off' })
      return () => undefined
    },
    onLevel: nothing,
  }
}
