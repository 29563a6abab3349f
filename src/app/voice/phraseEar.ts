import { hear, holdOver } from '../../core/voice/hear.ts'
import {
  HEAR_START,
  type HearContext,
  type HearOutcome,
  type HearState,
  type HearStep,
} from '../../core/voice/hearing.ts'
import type { HeldSpan } from '../../core/voice/heldEars.ts'
import { HEAR_RULES, type HearRules } from '../../core/voice/hearRules.ts'
import { ownLevel, withOwn, type OwnLevels } from '../../core/voice/ownLevel.ts'
import type { Clock } from '../../ports/clock.ts'
import type { Speech } from '../../ports/speech.ts'
import type { CommandKey } from '../../core/protocol/commands.ts'

export interface PhraseEarDeps<K extends string = CommandKey> {
  readonly speech: Pick<Speech, 'setPhrases' | 'onHearing'>
  readonly clock: Clock
  /** Safety commands: they act on the first hearing, also while a prompt plays. */
  readonly actAtOnce: readonly string[]
  readonly rules?: HearRules
  /** Nothing but a safety phrase acts that was not said while the ears were held open. */
  readonly heldRequired?: () => boolean
  /** Called with what the rules make of a hearing, and the monotonic ms of the sound behind it. */
  readonly onOutcome: (outcome: HearOutcome<K>, audio_ms: number) => void
}

/**
 * A recognizer with the rules of what counts as heard. The draw, the microphone check and the measurements all hear
 * through it.
 */
export interface PhraseEar<K extends string = CommandKey> {
  /** @param toUsOnly those of them that act only where they were surely said to us */
  open(phrases: ReadonlyMap<string, K>, toUsOnly?: ReadonlySet<string>): void
  /** When the ears were held open last. */
  setHeld(span: HeldSpan | undefined): void
  /** One of our own prompts began or ended. */
  setSpeaking(speaking: boolean): void
  /** Somebody is in the middle of saying something. */
  isHearing(): boolean
  end(): void
}

/** Follows what a recognizer hears and tells what the rules make of it. */
export function createPhraseEar<K extends string = CommandKey>(
  deps: PhraseEarDeps<K>,
): PhraseEar<K> {
  const { speech, clock, onOutcome, rules = HEAR_RULES } = deps
  let state: HearState<K> = HEAR_START
  let context: HearContext<K> = {
    open: new Map(),
    actAtOnce: new Set(deps.actAtOnce),
    speaking: false,
  }
  const around = (): HearContext<K> => ({
    ...context,
    heldRequired: deps.heldRequired?.() ?? false,
  })
  let own: OwnLevels = []
  let cancelHold: (() => void) | undefined

  function follow(step: HearStep<K>, audio_ms: number): void {
    state = step.state
    cancelHold?.()
    cancelHold = state.hold && holdUntil(state.hold.until_ms)
    if (step.outcome) onOutcome(step.outcome, audio_ms)
  }

  /** When nothing new is heard by then, the phrase acts. */
  const holdUntil = (until_ms: number): (() => void) =>
    clock.wakeAt(until_ms, () =>
      follow(holdOver(state, clock.read().mono_ms, around(), rules), until_ms),
    )

  const stopHearing = speech.onHearing((hearing) => {
    const step = hear(state, hearing, around(), rules)
    const { speech_dBFS } = hearing
    if (step.outcome?.kind === 'accept' && speech_dBFS !== undefined) {
      own = withOwn(own, speech_dBFS)
      context = { ...context, own_dBFS: ownLevel(own) }
    }
    follow(step, hearing.mono_ms)
  })

  return {
    open(phrases, toUsOnly = new Set()) {
      context = { ...context, open: phrases, toUsOnly }
      speech.setPhrases([...phrases.keys()])
    },
    setSpeaking(speaking) {
      context = { ...context, speaking }
    },
    setHeld(held) {
      context = { ...context, held }
    },
    isHearing: () => state.text !== '',
    end() {
      cancelHold?.()
      stopHearing()
    },
  }
}
