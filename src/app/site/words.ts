import type { Handling } from '../../core/catalogue/handling.ts'
import type { ClockKind, CuePromptKey } from '../../core/protocol/clockTable.ts'
import type { CommandKey } from '../../core/protocol/commands.ts'
import type { Flag, Outcome } from '../../core/protocol/events.ts'
import type { ExceptionKind } from '../../core/protocol/exceptions.ts'
import type { Ask } from '../../core/protocol/asks.ts'
import type { Impossible } from '../../core/protocol/impossible.ts'
import type { StepId } from '../../core/protocol/steps.ts'

/** How a tube of the rack stands. */
export type TubeStatus = 'waiting' | 'next' | 'on' | 'mix' | 'mixed' | 'short' | 'empty' | 'leftOut'

/** The words of the screens for one language, as the words data file holds them: one for everything there is. */
export interface Words {
  readonly language: string
  readonly caution: string
  readonly steps: Readonly<Record<StepId, StepWords>>
  readonly commands: Readonly<Record<CommandKey, string>>
  readonly exceptions: Readonly<Record<ExceptionKind, ExceptionWords>>
  readonly flags: Readonly<Record<Flag, string>>
  readonly impossible: Readonly<Record<Impossible, string>>
  readonly asks: Readonly<Record<Ask, string>>
  /** What yes and no come to, below the words themselves. */
  readonly answers: Readonly<Record<Ask, AnswerWords>>
  readonly clocks: Readonly<Record<ClockKind, string>>
  readonly tubeStatus: Readonly<Record<TubeStatus, string>>
  readonly handling: Readonly<Record<Handling, string>>
  readonly outcomes: Readonly<Record<Outcome, string>>
}

export interface StepWords {
  readonly title: string
  /** A limit of the site stands in them as `{bandage_min}`. */
  readonly points: readonly string[]
}

export interface AnswerWords {
  readonly yes: string
  readonly no: string
}

export interface ExceptionWords extends StepWords {
  readonly instruction: string
}

/** Remarks for the record: shown and charted, never spoken, since no hand can do anything about them. */
export const SILENT_FLAGS = [
  'wrongOrder',
  'mixedLate',
  'bandOverLimit',
  'labelsLate',
  'spunTwice',
  'spunLate',
  'separatedLate',
  'keptCold',
  'sentLate',
  'actTimeUncertain',
] as const
export const SILENT_EXCEPTIONS = ['shortFill'] as const
type SilentFlag = (typeof SILENT_FLAGS)[number]
type SilentException = (typeof SILENT_EXCEPTIONS)[number]

/** Prompts that would frighten who hears them: each has a twin with a short code for where patients listen. */
export const ALARMING = [
  'step.wristband',
  'exception.identityMismatch',
  'exception.swelling',
  'exception.brightBlood',
  'exception.sharpPain',
  'exception.faint',
  'exception.bleedingContinues',
  'exception.consentWithdrawn',
  'exception.needlestick',
  'handled.needlestick',
  'exception.nausea',
  'exception.stopEverything',
  'exception.wrongTube',
  'exception.expiredTube',
  'exception.droppedTube',
  'exception.unlabelledTube',
  'flag.identityNotChecked',
  'flag.wristbandMismatch',
  'flag.consentNotRecorded',
  'flag.restrictedArm',
  'flag.skinNotClean',
  'flag.wrongAntiseptic',
  'flag.infantChlorhexidine',
  'flag.shieldNotClicked',
  'flag.labelMismatch',
  'flag.lostTubeLabel',
  'flag.transferLate',
  'cue.transfer.up',
  'flag.overBloodLimit',
  'flag.afterStop',
  'ask.refuseIdentity',
  'ask.closedArm',
  'ask.afterFaint',
  'ask.overLimit',
  'ask.accessionElsewhere',
  'ask.unlabelledAsIs',
  'ask.unlabelledDiscard',
] as const
type AlarmingPrompt = (typeof ALARMING)[number]

/** What is to come off the arm and out of it, in that order. */
export type OffWords =
  | 'band'
  | 'tube'
  | 'needle'
  | 'bandTube'
  | 'bandNeedle'
  | 'tubeNeedle'
  | 'bandTubeNeedle'
  | 'tubePress'
  | 'press'

/** What must have a prompt; the others (tubes, turns, lengths of time) are used where a language has them. */
export type PromptKey =
  | `step.${StepId}`
  | `exception.${Exclude<ExceptionKind, SilentException>}`
  | `flag.${Exclude<Flag, SilentFlag>}`
  | `off.${OffWords}`
  | `handle.${'ice' | 'warm' | 'light' | 'iceLight' | 'warmLight' | 'dryFlat'}`
  | `ask.${Ask}`
  | 'handled.needlestick'
  | `discreet.${AlarmingPrompt}`
  | CuePromptKey
  | `clock.${ClockKind | 'toGo'}`
  | `app.${'resumed' | 'paused' | 'deaf' | 'again' | 'away' | 'undone' | 'bandIsOn'}`
  | 'time.none'
  | 'series.due'
  | 'bench.ready'
  | 'bench.spinDone'
  | 'bench.near'
  | 'bench.over'

/** Spoken texts by key, as the prompts data file holds them. */
export interface Prompts {
  readonly language: string
  readonly prompts: Readonly<Record<PromptKey, string>> &
    Readonly<Record<string, string | undefined>>
  /** What stands on the screen where a prompt is spelled for the voice. */
  readonly shown?: Readonly<Record<string, string | undefined>>
  /** Prompts that nobody has recorded yet: read by the browser, or a tone. Empty once they are. */
  readonly unrecorded?: readonly string[]
}
