import { defined } from '../../core/basics/defined.ts'
import { createEmitter } from '../../core/basics/emitter.ts'
import { SAFETY_COMMANDS } from '../../core/protocol/commandTable.ts'
import type { CommandKey } from '../../core/protocol/commands.ts'
import { openAtStep } from '../../core/voice/openTogether.ts'
import type { Clock } from '../../ports/clock.ts'
import type { Speech } from '../../ports/speech.ts'
import { wordingsOf, type PhraseBook } from '../site/phraseBook.ts'
import type { VoiceTexts } from '../site/voiceTexts.ts'
import type { CheckFound, OwnVoice } from '../../core/voice/ownVoice.ts'
import { checkPlan, learnPlan, type CheckPlan } from './micCheckPlan.ts'
import { askedNow, micCheckAfter, type MicCheckEvent, type MicCheckState } from './micCheckState.ts'
import { micCheckView, type MicCheckView } from './micCheckView.ts'
import type { OpenPhrases } from './openPhrases.ts'
import { createPhraseEar } from './phraseEar.ts'

/** Whom a check is of. */
export interface CheckedPerson {
  readonly collectorId: string
  readonly voice: OwnVoice | undefined
  /** The phrases in that person's order. */
  readonly phrases: PhraseBook
}

export interface MicCheckDeps {
  readonly clock: Clock
  readonly phrases: PhraseBook
  readonly texts: VoiceTexts
  readonly makeSpeech: () => Speech
  /** A quiet tick when a phrase was heard. */
  readonly onHeard: () => void
  /** Who speaks; `undefined` while nobody has said who draws, and then nothing is learned. */
  readonly person: () => CheckedPerson | undefined
  readonly onLearned: (collectorId: string, found: CheckFound) => void
}

/** A microphone check of one minute. No sound of it is kept. */
export interface MicCheck {
  readonly current: () => MicCheckView
  readonly subscribe: (observer: () => void) => () => void
  /** @param kind whether one can be heard at all, or which wordings are heard best */
  readonly start: (kind: CheckPlan['kind']) => Promise<void>
  /** Goes on to the next phrase as not heard. */
  readonly skip: () => void
  readonly stop: () => void
}

/** The microphone behind a check under way. */
interface MicRun {
  /** Opens the phrases and sets the time that the state asks for. */
  follow(before: MicCheckState, after: MicCheckState): void
  /** Voice is switched off. */
  isOff(): boolean
  end(): void
}

/** Brings the microphone to the steps of `micCheckAfter`, and its states to the screen. */
export function createMicCheck(deps: MicCheckDeps): MicCheck {
  const { clock, phrases, texts } = deps
  const changes = createEmitter<undefined>()
  let state: MicCheckState = { phase: 'ready' }
  let view = micCheckView(state, texts)
  let run: MicRun | undefined
  /** Whom the check under way is of. */
  let collectorId: string | undefined

  function dispatch(event: MicCheckEvent): void {
    const before = state
    state = micCheckAfter(before, event, clock.read().mono_ms)
    if (state === before) return
    if (rightOf(state) > rightOf(before)) deps.onHeard()
    const found = foundBy(before, state)
    if (found && collectorId !== undefined) deps.onLearned(collectorId, found)
    if (state.phase === 'ready' || state.phase === 'done') endRun()
    else run?.follow(before, state)
    view = micCheckView(state, texts)
    changes.emit(undefined)
  }

  function endRun(): void {
    run?.end()
    run = undefined
  }

  async function start(kind: CheckPlan['kind']): Promise<void> {
    endRun()
    const person = deps.person()
    collectorId = person?.collectorId
    const plan = (kind === 'learn' ? learnPlan : checkPlan)(
      person?.phrases ?? phrases,
      person?.voice,
    )
    const speech = deps.makeSpeech()
    const mine = openRun(speech)
    run = mine
    dispatch({ type: 'started', plan })
    await speech.start()
    if (run !== mine) return
    dispatch(mine.isOff() ? { type: 'troubled', trouble: 'off' } : { type: 'opened' })
  }

  function openRun(speech: Speech): MicRun {
    let off = false
    const ear = createPhraseEar({
      speech,
      clock,
      actAtOnce: SAFETY_COMMANDS,
      onOutcome: (outcome) => dispatch({ type: 'heard', outcome }),
    })
    const ends = [
      speech.onLevel((level) => dispatch({ type: 'levelChanged', level })),
      speech.onState((next) => {
        off = next.kind === 'off'
        if (next.kind === 'trouble') dispatch({ type: 'troubled', trouble: next.code })
      }),
    ]
    let cancel: (() => void) | undefined
    return {
      isOff: () => off,
      follow(before, after) {
        if (placeOf(after) !== placeOf(before)) ear.open(phrasesAround(after, phrases))
        const until_ms = endOf_ms(after)
        if (until_ms === endOf_ms(before)) return
        cancel?.()
        cancel =
          until_ms === undefined
            ? undefined
            : clock.wakeAt(until_ms, () => dispatch({ type: 'timeUp' }))
      },
      end() {
        cancel?.()
        ends.forEach((each) => each())
        ear.end()
        void speech.stop()
      },
    }
  }

  return {
    current: () => view,
    subscribe: changes.observe,
    start,
    skip: () => dispatch({ type: 'skipped' }),
    stop: () => dispatch({ type: 'stopped' }),
  }
}

const rightOf = (state: MicCheckState): number => ('right' in state ? state.right : 0)
const placeOf = (state: MicCheckState): number => (state.phase === 'asking' ? state.index : -1)
const endOf_ms = (state: MicCheckState): number | undefined =>
  'until_ms' in state ? state.until_ms : undefined

/** What was learned by a check that has just ended, or was left. */
function foundBy(before: MicCheckState, after: MicCheckState): CheckFound | undefined {
  if (after.phase === 'done') {
    const { trials, levels } = after
    return trials.length > 0 || levels ? defined({ trials, levels }) : undefined
  }
  if (after.phase !== 'ready' || before.phase !== 'asking') return undefined
  return before.trials.length > 0 ? { trials: before.trials } : undefined
}

/** The phrases of the step of a phrase that is asked for. */
function phrasesAround(state: MicCheckState, book: PhraseBook): OpenPhrases {
  const asked = state.phase === 'asking' ? askedNow(state) : undefined
  const keys = openAtStep(asked?.step ?? '') ?? []
  return new Map(
    keys.flatMap((key) =>
      wordingsOf(book, key).map((phrase) => [phrase, key as CommandKey] as const),
    ),
  )
}
