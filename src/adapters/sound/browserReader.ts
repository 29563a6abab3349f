import { createEmitter } from '../../core/basics/emitter.ts'
import type { Reader } from '../../ports/reader.ts'

/** The browser's own voices, as far as they are needed here. */
export interface Synthesis {
  getVoices(): readonly Pick<SpeechSynthesisVoice, 'lang' | 'localService'>[]
  speak(utterance: SpeechSynthesisUtterance): void
  cancel(): void
}

/**
 * Reads by the browser's speech synthesis. Voices that a browser fetches from a server are never used: a name would
 * leave the machine.
 * @param synthesis `undefined` in a browser without any
 * @param language `en`: voices of another language are not used
 */
export function createBrowserReader(
  synthesis: Synthesis | undefined,
  makeUtterance: (text: string) => SpeechSynthesisUtterance,
  language: string,
): Reader {
  const changes = createEmitter<boolean>()
  const waiting = new Set<SpeechSynthesisUtterance>()
  let volume = 1
  const voice = () =>
    synthesis
      ?.getVoices()
      .find((each) => each.localService && each.lang.toLowerCase().startsWith(language))
  const change = (by: () => void): void => {
    const before = waiting.size > 0
    by()
    if (waiting.size > 0 !== before) changes.emit(!before)
  }
  return {
    isThere: () => voice() !== undefined,
    read(text) {
      const found = voice()
      if (!synthesis || !found || text === '') return
      const utterance = makeUtterance(text)
      utterance.voice = found as SpeechSynthesisVoice
      utterance.lang = found.lang
      utterance.volume = volume
      // What was stopped tells so later; by then something else may be read.
      utterance.onend = () => change(() => waiting.delete(utterance))
      utterance.onerror = utterance.onend
      change(() => waiting.add(utterance))
      synthesis.speak(utterance)
    },
    stop() {
      synthesis?.cancel()
      change(() => waiting.clear())
    },
    setVolume(next) {
      volume = Math.max(0, Math.min(1, next))
    },
    onReading: changes.observe,
  }
}
