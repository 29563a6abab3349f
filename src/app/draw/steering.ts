import type { SteeringCommand } from '../../core/protocol/commandTable.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { stepOf } from '../../core/protocol/steps.ts'
import type { Clock } from '../../ports/clock.ts'
import { clockSentence, clockViews } from '../view/clockViews.ts'
import type { Notice } from '../view/drawViewTypes.ts'
import { stepPromptKey, timePromptKey } from '../view/promptKeys.ts'
import type { ViewTexts } from '../view/viewTexts.ts'

export interface SteeringDeps extends Pick<ViewTexts, 'words' | 'prompts' | 'texts'> {
  readonly clock: Clock
  readonly say: (...promptKeys: readonly string[]) => void
  readonly state: () => DrawState
  readonly onListening: (wanted: boolean) => void
  /** Tones in the place of words are wanted, or no longer. */
  readonly onTones: (tonesOnly: boolean) => void
  readonly onNotice: (notice: Notice) => void
  readonly onPrintLabels: (drawId: string) => void
}

/** What the commands do that steer the app and leave no trace in the record. */
export function createSteering(deps: SteeringDeps): Readonly<Record<SteeringCommand, () => void>> {
  const { clock, say, prompts, state } = deps
  const listen = (wanted: boolean) => (): void => {
    deps.onListening(wanted)
    say(wanted ? 'app.resumed' : 'app.paused')
  }
  const tones = (tonesOnly: boolean) => (): void => {
    deps.onTones(tonesOnly)
    const text = deps.texts.draw.notice[tonesOnly ? 'tonesOnly' : 'wordsAgain']
    deps.onNotice({ tone: 'info', text })
    say('app.test')
  }
  return {
    sayAgain: () => say(stepPromptKey(state(), stepOf(state()), prompts)),
    howLong: () => {
      const first = clockViews(state(), clock.read(), deps)[0]
      const { draw } = deps.texts
      const text = first ? clockSentence(first, draw) : draw.clock.none
      deps.onNotice({ tone: 'info', text })
      if (!first) return say('time.none')
      const toGo = first.direction === 'down' ? ['clock.toGo'] : []
      say(`clock.${first.kind}`, timePromptKey(first.value_ms, prompts), ...toGo)
    },
    pauseListening: listen(false),
    resumeListening: listen(true),
    tonesOnly: tones(true),
    wordsAgain: tones(false),
    printLabels: () => deps.onPrintLabels(state().opened.drawId),
    // No question is open, or they would have answered it.
    confirmYes: () => undefined,
    confirmNo: () => undefined,
  }
}
