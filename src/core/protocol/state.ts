import type { Language } from '../basics/language.ts'
import type { LogEntry } from './entry.ts'
import type {
  Arm,
  Collector,
  DecisionSubject,
  NeedleSet,
  PreparationAnswer,
} from '../order/order.ts'
import type { SkinPlace } from '../order/collecting.ts'
import type { MomentTime } from '../order/sitting.ts'
import type { Fill, Plan } from '../plan/plan.ts'
import type { Stamp } from '../time/stamp.ts'
import type {
  ArmFinding,
  CircleFinding,
  DrawOpened,
  Flag,
  Identifier,
  NamedDecision,
  Outcome,
  Position,
  Vein,
} from './events.ts'
import type { ExceptionKind } from './exceptions.ts'
import type { Antiseptic } from './antiseptics.ts'
import type { ArmCloser } from './exceptionTable.ts'

/** One stretch of the band around the arm. */
export interface BandPeriod {
  readonly on: Stamp
  readonly off?: Stamp
  /** The arm chosen at that moment, if any was. */
  readonly arm?: Arm
}

/** Blood in mL: what it is at least, and at most where nobody said how much. */
export interface Blood {
  readonly least_mL: number
  readonly most_mL: number
}

/** What has happened to one planned tube so far. */
export interface TubeProgress {
  readonly id: string
  readonly on?: Stamp
  readonly off?: Stamp
  readonly fill?: Fill
  readonly estimate_mL?: number
  readonly mixed?: Stamp
  /** Since when it is on ice, kept warm, kept from light or laid flat. */
  readonly handled?: Readonly<Partial<Record<'ice' | 'warm' | 'light' | 'dryFlat', Stamp>>>
  /** The circles of a card, in the order they were filled. */
  readonly circles?: readonly CircleFinding[]
  readonly dried?: Stamp
  /** The puncture it was drawn in. */
  readonly puncture?: number
  /** How many tubes were set aside in its place. */
  readonly swaps: number
}

/** One needle, from choosing the site to the bandage. */
export interface Puncture {
  readonly number: number
  readonly by: string
  readonly arm?: Arm
  readonly vein?: Vein
  /** On a side that was lanced before: at another place of it. */
  readonly elsewhere?: true
  readonly cleaned?: Stamp
  readonly cleanedWith?: Antiseptic
  readonly dry?: Stamp
  readonly bandSeen: boolean
  /** Said anew for it; see `needleSetOf` for the one that counts. */
  readonly needleSet?: NeedleSet
  /** Since when a warm pack is on the finger or heel, and when it was warm. */
  readonly warming?: Stamp
  readonly warm?: Stamp
  /** The needle went in, or the lancet opened the skin. */
  readonly needleIn?: Stamp
  /** It is a lancet and no needle. */
  readonly isLancet?: true
  /** The first drop after the lancet. */
  readonly wiped?: Stamp
  readonly flash?: Stamp
  /** The syringe holds its blood, with how much that is. */
  readonly pulled?: Blood & { readonly at: Stamp }
  /** The transfer device is on the syringe. */
  readonly transfer?: Stamp
  readonly lastTubeOff?: Stamp
  /** The needle came out, or gauze went on the lanced place. */
  readonly needleOut?: Stamp
  readonly pressureOn?: Stamp
  readonly shield?: Stamp
  readonly sharps?: Stamp
  readonly bleedingStopped?: Stamp
  readonly bandage?: Stamp
  /** Set once something was raised after which no more blood is taken through this needle. */
  readonly ending: boolean
  /** What happened under this needle that closes its arm for the rest of the draw. */
  readonly closedBy?: ArmCloser
}

/** An exception that is being dealt with. */
export interface OpenException {
  readonly kind: ExceptionKind
  readonly at: Stamp
  readonly tubeId?: string
  /** A clock found it out and no person said so: a guess from how long it takes. */
  readonly noticed?: true
}

/** The state of a draw from its opening on: a fold over its log and nothing else. */
export interface DrawState {
  readonly opened: DrawOpened
  readonly openedAt: Stamp
  readonly last: LogEntry
  readonly collector: Collector
  /** Blood is taken from here, drop by drop; missing for a vein, also once the draw has gone on from one. */
  readonly collecting?: SkinPlace
  /** Since when a colleague is with the patient whose name is not written yet. */
  readonly colleagueTook?: Stamp
  /** Whoever was stuck last, since when, and whether it is settled: they put no further needle in. */
  readonly pricked?: { readonly by: string; readonly at: Stamp; readonly isSettled: boolean }
  readonly plan: Plan
  readonly identifiers: Readonly<Partial<Record<Identifier, boolean>>>
  readonly consent?: 'given' | 'refused' | 'withdrawn'
  readonly preparation: 'open' | 'checked' | 'notPrepared' | NamedDecision
  /** Answers taken at the chair; they stand over those of the opening. */
  readonly answers: PreparationAnswer
  /** Decisions about anything but the preparation. */
  readonly decisions: readonly {
    readonly about: DecisionSubject
    readonly decision: NamedDecision
    /** The arm that it lets be used; missing where it named none and none was chosen since. */
    readonly arm?: Arm
    /** How often something had happened to that arm when it was made. */
    readonly injuries?: number
  }[]
  /** What was seen at the arms and nobody had told. */
  readonly armsSeen: readonly { readonly arm: Arm; readonly finding: ArmFinding }[]
  readonly supplies: boolean
  readonly cardChecked?: Stamp
  readonly hands: boolean
  readonly position?: Position
  readonly bands: readonly BandPeriod[]
  readonly tubes: readonly TubeProgress[]
  readonly tubeOn?: string
  readonly past: readonly Puncture[]
  readonly puncture: Puncture
  readonly readBack: Readonly<Record<string, boolean>>
  /** Numbers of the laboratory's own labels, by tube. */
  readonly accessions: Readonly<Record<string, string>>
  /** Last part of the number of a tube that was redrawn, by tube. */
  readonly redrawn: Readonly<Record<string, number>>
  /** How many such numbers were ever given, also where that was taken back: none is given twice. */
  readonly redrawnGiven: number
  /** Numbers on the labels of tubes that were lost. */
  readonly lostNumbers: readonly string[]
  /** Tubes that go to the laboratory without a label, by somebody's decision. */
  readonly unlabelled: readonly string[]
  /** No further needle is wanted in this draw. */
  readonly noMore: boolean
  readonly labelsDone?: Stamp
  readonly aftercare?: Stamp
  /** In which the patient is told and given things; not known of older draws. */
  readonly patientLanguage?: Language
  readonly handsAfter?: Stamp
  readonly racked?: Stamp
  /** Blood in tubes that were set aside or dropped. */
  readonly lost: readonly (Blood & { readonly puncture?: number })[]
  readonly bloodApproved?: { readonly by: string; readonly why: string }
  /** Tubes that were spun, and those that left. */
  readonly spun: readonly string[]
  readonly sent: readonly string[]
  /** Every specimen has left. */
  readonly courier?: Stamp
  /** Ids of acts on the bench that stand in the log, also of those taken back: none is written twice. */
  readonly acts: readonly string[]
  /** Moments of the series as they were told, the latest word last. */
  readonly moments: readonly MomentTime[]
  /** Keys of the sittings that will not be drawn. */
  readonly leftOut: readonly string[]
  readonly exceptions: readonly OpenException[]
  readonly seen: readonly ExceptionKind[]
  readonly flags: readonly { readonly flag: Flag; readonly at: Stamp }[]
  /** `clock/cue` of every cue given, so that none is given twice after a reload. */
  readonly cues: readonly string[]
  readonly closed?: { readonly outcome: Outcome; readonly at: Stamp }
  /** Every entry that still counts, for taking one back. */
  readonly kept: readonly LogEntry[]
}

/** A puncture that has not begun. */
export function freshPuncture(number: number, by: string): Puncture {
  return { number, by, bandSeen: false, ending: false }
}
