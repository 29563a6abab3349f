import { hear, holdOver } from '../../core/voice/hear.ts'
import { HEAR_START, type HearContext, type HearOutcome, type HearStep } from '../../core/voice/hearing.ts' // prettier-ignore
import type { Clock } from '../../ports/clock.ts'
import type { Speech } from '../../ports/speech.ts'
import type { OpenPhrases } from './openPhrases.ts'

/** A recognizer with the rules of what counts as heard. */
export interface PhraseEar {
  open(phrases: OpenPhrases): void
  end(): void
}

/** Follows what a recognizer hears and tells what the rules make of it. */
export function createPhraseEar(
  speech: Speech,
  clock: Clock,
  actAtOnce: readonly string[],
  onOutcome: (outcome: HearOutcome) => void,
): PhraseEar {
  let state = HEAR_START
  let context: HearContext = { open: new Map(), actAtOnce: new Set(actAtOnce), speaking: false }
  let cancelHold: (() => void) | undefined

  function follow(step: HearStep): void {
    state = step.state
    cancelHold?.()
    cancelHold = state.hold && clock.wakeAt(state.hold.until_ms, onHold)
    if (step.outcome) onOutcome(step.outcome)
  }
  const onHold = (): void => follow(holdOver(state, clock.read().mono_ms, context))
  const stopHearing = speech.onHearing((heard) => follow(hear(state, heard, context)))

  return {
    open(phrases) {
      context = { ...context, open: phrases }
      speech.setPhrases([...phrases.keys()])
    },
    end() {
      cancelHold?.()
      stopHearing()
    },
  }
}
