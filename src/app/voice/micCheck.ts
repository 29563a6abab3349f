import { createEmitter } from '../../core/basics/emitter.ts'
import { SAFETY_COMMANDS } from '../../core/protocol/commandTable.ts'
import type { CommandKey } from '../../core/protocol/commands.ts'
import { openAtStep } from '../../core/voice/openTogether.ts'
import type { Clock } from '../../ports/clock.ts'
import type { Speech } from '../../ports/speech.ts'
import { wordingsOf, type PhraseBook } from '../site/phraseBook.ts'
import type { VoiceTexts } from '../site/voiceTexts.ts'
import { CHECKED, micCheckAfter, type MicCheckEvent, type MicCheckState } from './micCheckState.ts'
import { micCheckView, type MicCheckView } from './micCheckView.ts'
import type { OpenPhrases } from './openPhrases.ts'
import { createPhraseEar } from './phraseEar.ts'

export interface MicCheckDeps {
  readonly clock: Clock
  readonly phrases: PhraseBook
  readonly texts: VoiceTexts
  readonly makeSpeech: () => Speech
  /** A quiet tick when a phrase was heard. */
  readonly onHeard: () => void
}

/** A microphone check of one minute. Nothing of it is recorded. */
export interface MicCheck {
  readonly current: () => MicCheckView
  readonly subscribe: (observer: () => void) => () => void
  readonly start: () => Promise<void>
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
  let view = micCheckView(state, phrases, texts)
  let run: MicRun | undefined

  function dispatch(event: MicCheckEvent): void {
    const before = state
    state = micCheckAfter(before, event, clock.read().mono_ms)
    if (state === before) return
    if (rightOf(state) > rightOf(before)) deps.onHeard()
    if (state.phase === 'ready' || state.phase === 'done') endRun()
    else run?.follow(before, state)
    view = micCheckView(state, phrases, texts)
    changes.emit(undefined)
  }

  function endRun(): void {
    run?.end()
    run = undefined
  }

  async function start(): Promise<void> {
    endRun()
    const speech = deps.makeSpeech()
    const mine = openRun(speech)
    run = mine
    dispatch({ type: 'started' })
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
        if (phraseOf(after) !== phraseOf(before)) ear.open(phrasesAround(phraseOf(after), phrases))
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
const phraseOf = (state: MicCheckState): number => (state.phase === 'asking' ? state.index : -1)
const endOf_ms = (state: MicCheckState): number | undefined =>
  'until_ms' in state ? state.until_ms : undefined

/** The phrases of the step of a phrase that is asked for. */
function phrasesAround(index: number, book: PhraseBook): OpenPhrases {
  const keys = openAtStep(CHECKED[index]?.step ?? '') ?? []
  return new Map(
    keys.flatMap((key) =>
      wordingsOf(book, key).map((phrase) => [phrase, key as CommandKey] as const),
    ),
  )
}
