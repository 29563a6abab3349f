import type { Clock } from '../../ports/clock.ts'
import type { Sound } from '../../ports/sound.ts'

export interface PrompterDeps {
  readonly clock: Clock
  readonly sound: Sound
  /** Somebody is in the middle of saying something. */
  readonly isHearing: () => boolean
}

/** Speaks the prompts of a draw, one at a time. */
export interface Prompter {
  say(key: string): void
  /**
   * Words that wait for the person's: over each other neither would be understood. They are dropped when they are no
   * longer true by then.
   */
  sayLater(key: string, stillTrue: () => boolean): void
}

/** About as long as a phrase and its hearing take. */
const WAIT_FOR_SPEECH_ms = 1200

export function createPrompter({ clock, sound, isHearing }: PrompterDeps): Prompter {
  let cancel: (() => void) | undefined
  const say = (key: string): void => {
    cancel?.()
    cancel = undefined
    sound.speak(key)
  }
  return {
    say,
    sayLater(key, stillTrue) {
      if (!isHearing()) {
        say(key)
        return
      }
      cancel?.()
      cancel = clock.wakeAt(clock.read().mono_ms + WAIT_FOR_SPEECH_ms, () => {
        if (stillTrue()) sound.speak(key)
      })
    },
  }
}
