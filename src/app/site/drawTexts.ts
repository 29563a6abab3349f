import type {
  Anticoagulant,
  AntisepticAllergy,
  Arm,
  ArmRestriction,
  NeedleKind,
} from '../../core/order/order.ts'
import type { Antiseptic } from '../../core/protocol/antiseptics.ts'
import type { ArmCloser } from '../../core/protocol/exceptionTable.ts'
import type { LancetDepth } from '../../core/protocol/lancetDepth.ts'
import type { Via } from '../../core/scenario/scenario.ts'

/** What the screen of a draw says besides its words, `draw.json` of a language. Values stand in braces. */
export interface DrawTexts {
  /** `{taken_mL}` of `{most_mL}`. */
  readonly bloodSoFar: string
  readonly overLimit: string
  /** `{name}`, `{marks}`. */
  readonly handling: string
  readonly patient: Readonly<Record<'line' | 'fullName' | 'birthDate' | 'recordNumber', string>>
  /** Which samples of a series the draw is. */
  readonly sitting: Readonly<
    Record<'bare' | 'due' | 'notAt' | 'beforeDose' | 'doseDue' | 'askDose', string>
  >
  readonly spin: Readonly<Record<'serum' | 'plasma', string>>
  readonly answers: AnswerTexts
  readonly notThisArm: Readonly<Record<Arm, string>>
  /** What the skin is cleaned with, and what goes with it. */
  readonly cleansing: CleansingTexts
  /** What a needle or a set of its kind asks for at a step. */
  readonly ofSet: Readonly<Record<NeedleKind, SetTexts>>
  /** The same where the needle is on a syringe. */
  readonly ofSyringe: Readonly<Record<NeedleKind, SetTexts>>
  /** `{syringe_mL}`, `{need_mL}`, `{fit_mL}`, `{pull_mL}`. */
  readonly syringe: Readonly<Record<'size' | 'small' | 'none' | 'pull' | 'less' | 'over', string>>
  /** In the place of the general reminders, where the blood is in a syringe. */
  readonly syringePoints: Readonly<Record<'release' | 'sharps', readonly string[]>>
  /** What a finger or heel asks for. */
  readonly capillary: CapillaryTexts
  /** What the patient, or a parent, is told at the end, by where the blood came from. */
  readonly aftercare: Readonly<Record<'arm' | 'skin' | 'infant', string>>
  readonly restriction: Readonly<Record<ArmRestriction | ArmCloser, string>>
  readonly tube: string
  readonly mixing: string
  readonly mixingRange: string
  readonly pressure: string
  /** `{number}`, `{of}`, `{which}`. */
  readonly tubeOf: string
  /** `{tests}`, `{more}`. */
  readonly testsAndMore: string
  /** What has to be off, out and away after an alarm. */
  /** Beside the steps, after a needlestick, until it is settled. */
  readonly firstAid: string
  readonly checklist: Readonly<
    Record<'band' | 'tube' | 'needle' | 'pressed' | 'shield' | 'sharps', string>
  >
  readonly coverage: Readonly<Record<'covered' | 'missing' | 'tryFirst', string>>
  readonly clock: ClockTexts
  readonly notice: Readonly<
    Record<
      | 'exception'
      | 'exceptionBandOn'
      | 'away'
      | 'awayBandOn'
      | 'accession'
      | 'lot'
      | 'takenBack'
      | 'tonesOnly'
      | 'wordsAgain'
      | 'mixed'
      | 'wristband',
      string
    >
  >
  /** What a trainee is told to do, by the way in which it is done. */
  readonly coach: Readonly<Record<Via | 'end' | 'endOfSitting', string>>
}

/** The answers taken before the draw. */
export interface AnswerTexts {
  readonly fasted: string
  readonly fastingNotAsked: string
  readonly anticoagulant: Readonly<Record<Anticoagulant, string>>
  readonly latex: string
  readonly latexHands: string
  readonly noLatex: string
  readonly latexNotAsked: string
  readonly fainted: string
  readonly faintedNotAsked: string
  readonly antiseptic: Readonly<Record<AntisepticAllergy, string>>
  readonly antisepticNotAsked: string
}

export interface CleansingTexts {
  readonly take: string
  readonly name: Readonly<Record<Antiseptic, string>>
  /** Whoever cleans must say with what. */
  readonly which: string
  /** Chlorhexidine under two months of age. */
  readonly infant: string
  readonly noAlcohol: string
  readonly culture: string
  readonly bottles: readonly string[]
}

export interface CapillaryTexts {
  readonly depth: Readonly<Record<LancetDepth, string>>
  readonly infant: string
  readonly press: string
  readonly noBandage: string
}

export interface SetTexts {
  readonly ready: readonly string[]
  readonly needle: readonly string[]
  readonly firstBlood: readonly string[]
}

/** What a clock says of itself, so that its state never rests on color. */
export interface ClockTexts {
  readonly left: string
  readonly over: string
  readonly toGo: string
  readonly waitOver: string
  readonly fullAt: string
  readonly fullByNow: string
  readonly unknown: string
  /** Spoken as a whole; `countdown` where the words go on from the figures. */
  readonly sentence: string
  readonly countdown: string
  readonly none: string
}
