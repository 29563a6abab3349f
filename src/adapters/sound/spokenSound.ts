import { createEmitter } from '../../core/basics/emitter.ts'
import type { Reader } from '../../ports/reader.ts'
import type { Sound, SoundTrouble } from '../../ports/sound.ts'

export interface SpokenSoundOptions {
  /** Chimes, and prompts as far as they are recorded. */
  readonly recorded: Sound
  /** The recorded voices of the language; without any the reader speaks. */
  readonly voices: readonly string[]
  /** Reads in the language of the prompts. */
  readonly reader: Reader
  /** Whatever else reads aloud while a draw listens, such as what the patient is told. */
  readonly others?: readonly Reader[]
  readonly textOf: (promptKey: string) => string | undefined
}

/**
 * Sound whose prompts are recorded in the language of the page or, where they are not, read by the browser. The gate of
 * the recognizer hears of both, so that the app does not listen to itself.
 */
export function createSpokenSound(options: SpokenSoundOptions): Sound {
  const { recorded, voices, reader, others = [], textOf } = options
  const isRecorded = voices.length > 0
  const speaking = createEmitter<boolean>()
  const troubles = createEmitter<SoundTrouble | undefined>()
  const talking = new Set<Sound | Reader>()
  let silent = false
  let ofRecorded: SoundTrouble | undefined
  let isMute = false

  const follow = (source: Sound | Reader) => (is: boolean) => {
    const before = talking.size > 0
    if (is) talking.add(source)
    else talking.delete(source)
    if (talking.size > 0 !== before) speaking.emit(!before)
  }
  recorded.onSpeaking(follow(recorded))
  for (const each of [reader, ...others]) each.onReading(follow(each))

  const trouble = (): SoundTrouble | undefined =>
    ofRecorded ?? (isMute ? { code: 'promptsMissing' } : undefined)
  recorded.onTrouble((next) => {
    ofRecorded = next
    troubles.emit(trouble())
  })

  function read(key: string): void {
    recorded.hush()
    reader.stop()
    if (silent) return
    // Browsers find their voices a moment after the page: each prompt looks again.
    if (isMute === reader.isThere()) {
      isMute = !isMute
      troubles.emit(trouble())
    }
    reader.read(textOf(key) ?? '')
  }

  return {
    ...recorded,
    speak: (key) => (isRecorded ? recorded.speak(key) : read(key)),
    hush() {
      recorded.hush()
      if (!isRecorded) reader.stop()
    },
    setSilent(next) {
      silent = next
      recorded.setSilent(next)
      if (next) reader.stop()
    },
    setVolume(volume) {
      recorded.setVolume(volume)
      reader.setVolume?.(volume)
    },
    setVoice(voice) {
      const [first] = voices
      const chosen = voices.includes(voice) ? voice : first
      if (chosen !== undefined) recorded.setVoice?.(chosen)
    },
    onSpeaking: speaking.observe,
    onTrouble: troubles.observe,
  }
}
