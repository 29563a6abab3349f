import type { Clock } from '../../ports/clock.ts'
import type { Sound } from '../../ports/sound.ts'

export interface PrompterDeps {
  readonly clock: Clock
  readonly sound: Sound
  /** Somebody is in the middle of saying something. */
  readonly isHearing: () => boolean
  /** No word is heard now, so none follows another. */
  readonly isQuiet?: (() => boolean) | undefined
  /** The recording that stands for a prompt at this moment. */
  readonly spoken: (key: string) => string
}

/** Speaks the prompts of a draw, one at a time. */
export interface Prompter {
  /** One after the other; the next words for anything else end them. */
  say(...keys: readonly string[]): void
  /**
   * Words that wait for the person's: over each other neither would be understood. They are dropped when they are no
   * longer true by then.
   */
  sayLater(keys: readonly string[], stillTrue: () => boolean): void
  stop(): void
}

/** About as long as a phrase and its hearing take. */
const WAIT_FOR_SPEECH_ms = 1200

export function createPrompter({
  clock,
  sound,
  isHearing,
  isQuiet,
  spoken,
}: PrompterDeps): Prompter {
  let cancel: (() => void) | undefined
  let waiting: readonly string[] = []
  const next = (): void => {
    const [key, ...rest] = waiting
    waiting = rest
    if (key !== undefined) sound.speak(spoken(key))
  }
  const stopWaiting = sound.onSpeaking((speaking) => {
    if (!speaking && waiting.length > 0) next()
  })
  const begin = (keys: readonly string[]): void => {
    // A prompt that is broken off ends too: nothing of the last words may follow these.
    waiting = []
    const [first, ...rest] = keys
    if (first === undefined) return
    sound.speak(spoken(first))
    waiting = isQuiet?.() ? [] : rest
  }
  const say = (...keys: readonly string[]): void => {
    cancel?.()
    cancel = undefined
    begin(keys)
  }
  return {
    say,
    sayLater(keys, stillTrue) {
      if (!isHearing()) {
        say(...keys)
        return
      }
      cancel?.()
      cancel = clock.wakeAt(clock.read().mono_ms + WAIT_FOR_SPEECH_ms, () => {
        if (stillTrue()) begin(keys)
      })
    },
    stop: stopWaiting,
  }
}
