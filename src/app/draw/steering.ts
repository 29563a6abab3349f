import type { SteeringCommand } from '../../core/protocol/commandTable.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { stepOf } from '../../core/protocol/steps.ts'
import type { Clock } from '../../ports/clock.ts'
import type { Sound } from '../../ports/sound.ts'
import { clockSentence, clockViews } from '../view/clockViews.ts'
import type { Notice } from '../view/drawViewTypes.ts'
import { stepPromptKey, timePromptKey } from '../view/promptKeys.ts'
import type { Prompts, Words } from '../site/words.ts'

export interface SteeringDeps {
  readonly clock: Clock
  readonly sound: Sound
  readonly words: Words
  readonly prompts: Prompts
  readonly state: () => DrawState
  readonly onListening: (wanted: boolean) => void
  readonly onNotice: (notice: Notice) => void
}

/** What the commands do that steer the app and leave no trace in the record. */
export function createSteering(deps: SteeringDeps): Readonly<Record<SteeringCommand, () => void>> {
  const { clock, sound, words, prompts, state } = deps
  const listen = (wanted: boolean) => (): void => {
    deps.onListening(wanted)
    sound.speak(wanted ? 'app.resumed' : 'app.paused')
  }
  return {
    sayAgain: () => sound.speak(stepPromptKey(state(), stepOf(state()), prompts)),
    howLong: () => {
      const first = clockViews(state(), clock.read(), words)[0]
      deps.onNotice({ tone: 'info', text: first ? clockSentence(first) : 'No clock is running.' })
      sound.speak(first ? timePromptKey(first.value_ms, prompts) : 'time.none')
    },
    pauseListening: listen(false),
    resumeListening: listen(true),
    // No question is open, or they would have answered it.
    confirmYes: () => undefined,
    confirmNo: () => undefined,
  }
}
