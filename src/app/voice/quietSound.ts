import { createEmitter } from '../../core/basics/emitter.ts'
import type { Clock } from '../../ports/clock.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { Reader } from '../../ports/reader.ts'
import type { Chime, Sound } from '../../ports/sound.ts'
import type { Prompts } from '../site/words.ts'
import { toneOf } from './toneOf.ts'

export interface QuietSoundDeps {
  readonly clock: Clock
  readonly sound: Sound
  readonly reader: Reader
  readonly prompts: Prompts
  /** Prompts in the language of the page are recorded; without that all of them are read. */
  readonly hasVoice: boolean
  /** No word may be heard now. */
  readonly isQuiet: () => boolean
  /** A voice of the browser may be heard: it comes from the loudspeaker, wherever prompts go. */
  readonly mayRead: () => boolean
}

/** A tone follows the chime that says "heard"; with any other one of the same moment there is none. */
const APART_ms = 200
const SAME_MOMENT_ms = 300
/** Words of a clock's call may wait for a person's; its own chime has sounded by then. */
const SAME_CALL_ms = 2500

/**
 * The sound of the app where words may be kept back: a prompt then sounds as the tone of its kind. A prompt without a
 * recording is read by the browser where that may be heard, and is a tone where not.
 */
export function createQuietSound(deps: QuietSoundDeps): Sound {
  const { clock, sound, reader } = deps
  const unrecorded: ReadonlySet<string> = new Set(deps.prompts.unrecorded)
  const speaking = createEmitter<boolean>()
  const last = new Map<Chime, number>()
  let cancel: (() => void) | undefined
  let isReading = false

  const now = (): number => clock.read().mono_ms
  const since = (name: Chime): number => now() - (last.get(name) ?? -Infinity)

  function sounded(name: Chime): void {
    last.set(name, now())
    sound.chime(name)
  }

  function tone(key: string): void {
    const name = toneOf(key)
    const others = [...last.keys()].filter((each) => each !== 'heard')
    if (others.some((each) => since(each) < SAME_MOMENT_ms)) return
    if (key.includes('cue.') && since(name) < SAME_CALL_ms) return
    if (since('heard') >= APART_ms) return sounded(name)
    cancel = wakeIn(clock, APART_ms, () => sounded(name))
  }

  function hush(): void {
    cancel?.()
    cancel = undefined
    if (isReading) reader.stop()
    sound.hush()
  }

  sound.onSpeaking(speaking.emit)
  reader.onReading((reading) => {
    // What others have read, such as names, they tell themselves.
    if (!isReading) return
    speaking.emit(reading)
    isReading = reading
  })

  return {
    ...sound,
    chime(name) {
      // It says more than the tone that would have followed "heard".
      if (name !== 'heard') cancel?.()
      sounded(name)
    },
    speak(key) {
      const text = deps.prompts.prompts[key]
      if (deps.isQuiet() || (!deps.hasVoice && !deps.mayRead())) {
        hush()
        tone(key)
      } else if (!unrecorded.has(key) || text === undefined) {
        cancel?.()
        sound.speak(key)
      } else {
        hush()
        if (deps.mayRead() && reader.isThere()) {
          isReading = true
          reader.read(text)
        } else tone(key)
      }
    },
    hush,
    onSpeaking: speaking.observe,
  }
}
