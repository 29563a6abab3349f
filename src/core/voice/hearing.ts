import type { CommandKey } from '../protocol/commands.ts'
import type { HeldSpan } from './heldEars.ts'
import type { Match } from './matchPhrase.ts'
import type { Nearness } from './nearness.ts'

/**
 * A partial or final result of the recognizer, words as the model writes them, `[unk]` for speech that fits no phrase.
 */
export interface Hearing {
  readonly text: string
  readonly final: boolean
  /**
   * Counts utterances: one more after each final result, and after a change of phrases for all audio from then on.
   * The last final of an old utterance may come after the first partial of the next.
   */
  readonly utterance: number
  /** Monotonic ms at which the last audio chunk behind it was captured. */
  readonly mono_ms: number
  /** Loudness of the speech above the room, dB, where the adapter measures it. */
  readonly level_dB?: number
  /** How long it has been quiet again after the speech, ms, where the adapter measures it; 0 while somebody speaks. */
  readonly quiet_ms?: number
  /** How long that speech lasted, ms, from pause to pause, where the adapter measures it. */
  readonly spoken_ms?: number
  /** Loudness of that speech, dB below full scale, where the adapter measures it. */
  readonly speech_dBFS?: number
  /** The same above the running background of the last seconds, talk and all, dB. */
  readonly above_dB?: number
  /** The same above the moment before it began, dB. */
  readonly onset_dB?: number
  /** Loudness of the half second before it began, against it, dB: below 0 where that was softer. */
  readonly before_dB?: number
  /** Mean confidence of the final words, 0..1, where the engine gives it. */
  readonly confidence?: number
}

/** The moment's surroundings of a hearing. `K`: the commands that are listened for, those of a draw or others. */
export interface HearContext<K extends string = CommandKey> {
  /** Phrases open now, each with its command. */
  readonly open: ReadonlyMap<string, K>
  /** Safety commands: act at once and also while a prompt plays. */
  readonly actAtOnce: ReadonlySet<string>
  /** One of our own prompts is playing. */
  readonly speaking: boolean
  /** When the ears were held open last. */
  readonly held?: HeldSpan | undefined
  /** A setting for loud rooms: nothing but a safety phrase acts that was not said while they were held open. */
  readonly heldRequired?: boolean
  /** What others in the room ask as well: these phrases act only where they were surely said to us. */
  readonly toUsOnly?: ReadonlySet<string>
  /** Loudness of the phrases of the person at the chair, dB below full scale, once it is known. */
  readonly own_dBFS?: number | undefined
}

/** Why a phrase may act although it does not stand alone. */
export type Amid = 'near' | 'held'

/** What the rules make of a hearing. */
export type HearOutcome<K extends string = CommandKey> =
  | {
      readonly kind: 'accept'
      readonly key: K
      readonly phrase: string
      readonly early: boolean
      /** It was said while the ears were held open. */
      readonly held?: true
    }
  /** An early acceptance turned out otherwise: take it back if nothing came after it. */
  | {
      readonly kind: 'undo'
      readonly key: K
      readonly phrase: string
      readonly instead: string
      /** The phrase that was meant, if the final result is one that was open. */
      readonly meant?: Match<K>
    }
  /** A phrase was heard clearly but may not act now. */
  | {
      readonly kind: 'refuse'
      readonly phrase: string
      readonly why: 'speaking' | 'tooSoft' | 'unsure' | 'notHeld' | 'notToUs'
    }
  /** Perhaps said to us, amid other talk: worth asking for once more, and never worth acting on. */
  | { readonly kind: 'again'; readonly phrase: string }
  /** Part of an open phrase, nothing else: worth asking again. */
  | { readonly kind: 'unclear'; readonly text: string }

/** What an utterance has brought about. */
export interface Acted<K extends string = CommandKey> extends Match<K> {
  readonly utterance: number
  /** It did not stand alone. */
  readonly amid?: Amid
  /** It was said while the ears were held open. */
  readonly held?: true
  /** What was open when it acted; by its final result the draw has moved on. */
  readonly open: HearContext<K>['open']
}

export interface Hold<K extends string = CommandKey> extends Match<K> {
  readonly until_ms: number
  /** Of the speech that it was heard in. */
  readonly level_dB?: number
  readonly amid?: Amid
}

/** The one phrase of several words that stands within a text, other words around it or not. */
export interface Within<K extends string = CommandKey> extends Match<K> {
  /** Audio time since which it has stood there, whatever was added to the text. */
  readonly since_ms: number
  /** The nearest that it seemed at the end of the text, and how loud it was then, dB below full scale. */
  readonly seemed?: Nearness | undefined
  readonly speech_dBFS?: number | undefined
}

/** What is remembered of the utterance under way. */
export interface HearState<K extends string = CommandKey> {
  readonly utterance: number
  readonly text: string
  /** Audio time at which the present text was first heard, and the utterance began. */
  readonly since_ms: number
  readonly began_ms: number | undefined
  /** Audio time until which the utterances before were heard; none were at first. */
  readonly saidUntil_ms: number
  /** Audio time at which the present text's first word was first heard. */
  readonly word_ms: number
  /** Unknown sounds were heard in this utterance: talk rather than a phrase. */
  readonly unknown: boolean
  /** Audio time at which they were first made out. */
  readonly unknown_ms: number | undefined
  readonly within: Within<K> | undefined
  /** How long it had been quiet when the present text came up; 0 where that is not measured. */
  readonly afterthought_ms: number
  /** A prompt played during this utterance, so it may be the prompt itself. */
  readonly tainted: boolean
  /** What was acted on last before its final result; of this utterance, or of one whose final is still to come. */
  readonly acted: Acted<K> | undefined
  /** A phrase waits until this audio time to see whether speech goes on. */
  readonly hold: Hold<K> | undefined
}

export const HEAR_START: HearState<never> = {
  utterance: 0,
  text: '',
  since_ms: 0,
  began_ms: undefined,
  saidUntil_ms: -Infinity,
  word_ms: 0,
  unknown: false,
  unknown_ms: undefined,
  within: undefined,
  afterthought_ms: 0,
  tainted: false,
  acted: undefined,
  hold: undefined,
}

export interface HearStep<K extends string = CommandKey> {
  readonly state: HearState<K>
  readonly outcome?: HearOutcome<K>
}

/** The utterance under way has brought something about. */
export const hasActed = (state: HearState<string>): boolean =>
  state.acted?.utterance === state.utterance
