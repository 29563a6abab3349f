import type { Language } from '../basics/language.ts'
import type { LogEntry } from '../protocol/entry.ts'
import type { Arm, Collector, DecisionSubject, NeedleSet, Preparation } from '../order/order.ts'
import type { SkinPlace } from '../order/collecting.ts'
import type { MomentTime, SeriesGoAhead, SittingPart } from '../order/sitting.ts'
import type { Fill, Plan, PlannedTube } from '../plan/plan.ts'
import type {
  ArmFinding,
  CircleFinding,
  ConsentBy,
  ConsentForm,
  DrawOpened,
  Flag,
  IdentifiedBy,
  Identifier,
  NamedDecision,
  Outcome,
  Position,
  SetAside,
  UnlabelledEnd,
  Vein,
  VeinReason,
} from '../protocol/events.ts'
import type { Antiseptic } from '../protocol/antiseptics.ts'
import type { Handled } from '../protocol/handled.ts'
import type { ExceptionKind } from '../protocol/exceptions.ts'
import type { SpecimenWay, SpinPassed } from '../protocol/specimenWay.ts'
import type { Elapsed } from '../time/course.ts'
import type { Stamp } from '../time/stamp.ts'

export interface BandFact {
  readonly on: Stamp
  readonly off?: Stamp
  readonly length?: Elapsed
}

/** A run of entries whose written times are put right by one length; negative when they were too late. */
export interface TimeCorrection {
  readonly from: Stamp
  readonly to: Stamp
  readonly by_ms: number
  readonly entries: number
}

export interface SwapFact {
  readonly why: SetAside
  readonly at: Stamp
  /** Blood that was in it, mL; `undefined` when nobody said how much, 0 before any was. */
  readonly blood_mL?: number
  /** The number that its label bore, or would have; missing where the next tube has the same. */
  readonly number?: string
}

export interface ReadBackFact {
  readonly specimenNumber: string
  readonly how: 'read' | 'scan' | 'voice' | 'touch'
  readonly matches: boolean
  readonly at: Stamp
}

export interface AccessionFact {
  readonly accession: string
  readonly how: 'scan' | 'typed'
  readonly at: Stamp
}

export interface LotReadFact {
  readonly lot: string
  readonly expires?: string
  readonly at: Stamp
}

export interface TubeFact {
  readonly tube: PlannedTube
  /** False for a tube that no plan has: only its id is known of it. */
  readonly isPlanned: boolean
  /** Place in the order really drawn, from 1. */
  readonly position: number
  /** Place among the tubes as they first went on, from 1: a tube drawn in place of a lost one has that one's. */
  readonly place: number
  readonly puncture: number
  readonly collector: Collector
  readonly on: Stamp
  readonly off?: Stamp
  /** Its blood left the vein into a syringe, from which it was filled: when that was full. */
  readonly pulled?: Stamp
  readonly fill?: Fill
  readonly estimate_mL?: number
  readonly mixed?: Stamp
  /** So many tubes waited to be mixed when that was said: it was taken for the one that came off first. */
  readonly mixedOf?: number
  /** What stands on the tube itself, once it was scanned. */
  readonly lotRead?: LotReadFact
  /** Since when it is on ice, kept warm or kept from light. */
  readonly handled?: Readonly<Partial<Record<Handled, Stamp>>>
  /** The circles of a card as each was found, and when somebody called the card dry. */
  readonly circles?: readonly CircleFinding[]
  readonly dried?: Stamp
}

export interface PunctureFact {
  readonly number: number
  /** Who put the needle in, or was at the chair if none went in. */
  readonly collector: Collector
  readonly arm?: Arm
  readonly vein?: Vein
  /** At another place of a side that was lanced before. */
  readonly elsewhere?: boolean
  /** Where a lancet opened the skin; missing for a vein. */
  readonly skin?: SkinPlace
  /** `undefined` where a further needle went in and nobody said which. */
  readonly needleSet?: NeedleSet
  /** The set was named by kind and gauge alone: its lengths are the usual ones, and nobody said them. */
  readonly setIsNamed?: boolean
  readonly warming?: Stamp
  readonly warm?: Stamp
  /** The first drop after the lancet. */
  readonly wiped?: Stamp
  readonly cleaned?: Stamp
  readonly cleanedWith?: Antiseptic
  readonly dry?: Stamp
  readonly bands: readonly BandFact[]
  /**
   * Every time a needle went in or a lancet opened the skin; more than one means that it was tried again without a
   * fresh start.
   */
  readonly needleIn: readonly Stamp[]
  readonly flash?: Stamp
  /** The syringe as it was pulled: mL, where somebody knows. */
  readonly pulled?: { readonly at: Stamp; readonly isShort: boolean; readonly mL?: number }
  readonly transfer?: Stamp
  readonly lastTubeOff?: Stamp
  readonly needleOut?: Stamp
  readonly shield?: Stamp
  readonly sharps?: Stamp
  readonly pressureOn?: Stamp
  /** Pressing before that did not do: the place bled again. What was thought over then is not. */
  readonly pressedBefore?: readonly PressedFact[]
  readonly bleedingStopped?: Stamp
  readonly bandage?: Stamp
}

/** A time of pressing, and what was said before it bled again. */
interface PressedFact {
  readonly from: Stamp
  readonly stopped?: Stamp
  readonly bandage?: Stamp
}

/** A moment of a series, and when it was told; not told in this record where it was known at the opening. */
export interface MomentFact extends MomentTime {
  readonly told?: Stamp
  readonly why?: string
}

export interface ExceptionFact {
  readonly kind: ExceptionKind
  readonly at: Stamp
  readonly tubeId?: string
  readonly note?: string
  readonly ended?: { readonly at: Stamp; readonly how: string }
}

/** What a log says, sorted by what it is about. Retracted entries count nowhere but in `retracted`. */
export interface DrawFacts {
  readonly opened: DrawOpened
  readonly openedAt: Stamp
  readonly plan: Plan
  readonly planRevisions: readonly { readonly at: Stamp; readonly why: string }[]
  readonly collectors: readonly { readonly collector: Collector; readonly from: Stamp }[]
  readonly identifiers: readonly {
    readonly identifier: Identifier
    readonly matches: boolean
    readonly how?: IdentifiedBy
    readonly at: Stamp
  }[]
  readonly consent?: {
    readonly given: boolean
    readonly by?: ConsentBy
    readonly form?: ConsentForm
    readonly at: Stamp
  }
  /** A draw from a finger or heel went on from a vein. */
  readonly wentToVein?: { readonly why: VeinReason; readonly at: Stamp }
  readonly preparationChecked?: Stamp
  readonly notPrepared: readonly { readonly what: string; readonly at: Stamp }[]
  readonly decisions: readonly {
    readonly decision: NamedDecision
    readonly by: string
    readonly about?: DecisionSubject
    readonly arm?: Arm
    readonly why?: string
    readonly at: Stamp
  }[]
  /** Those of the order, with what was asked at the chair. */
  readonly answers: Preparation
  readonly supplies?: Stamp
  readonly cardChecked?: Stamp
  readonly hands?: Stamp
  /** What was seen at the arms. */
  readonly armsSeen: readonly {
    readonly arm: Arm
    readonly finding: ArmFinding
    readonly at: Stamp
  }[]
  readonly positions: readonly { readonly position: Position; readonly at: Stamp }[]
  readonly punctures: readonly PunctureFact[]
  readonly attempts: readonly { readonly collector: Collector; readonly count: number }[]
  /** In the order really drawn. */
  readonly tubes: readonly TubeFact[]
  readonly swaps: ReadonlyMap<string, readonly SwapFact[]>
  readonly readBacks: ReadonlyMap<string, readonly ReadBackFact[]>
  /** Numbers of the laboratory's own labels, by tube; the latest stands. */
  readonly accessions: ReadonlyMap<string, AccessionFact>
  /** Last part of the numbers of redrawn tubes, by tube. */
  readonly redrawn: ReadonlyMap<string, number>
  readonly notDrawn: readonly PlannedTube[]
  readonly noFurtherPuncture?: Stamp
  readonly labelsDone?: Stamp
  readonly aftercare?: Stamp
  /** In which the patient was told and given things: first, and since when another. */
  readonly patientLanguages: readonly { readonly language: Language; readonly at?: Stamp }[]
  /** In which it was told; not known of older draws. */
  readonly aftercareLanguage?: Language
  readonly handsAfter?: Stamp
  readonly racked?: Stamp
  /** The spins of the draw's tubes, each with its tubes. */
  readonly spins: readonly (SpinPassed & { readonly tubeIds: readonly string[] })[]
  /** What happened to each specimen after the draw, by tube. */
  readonly ways: ReadonlyMap<string, SpecimenWay>
  /** Moments of the series: those known at the opening, then those told in this record, the latest word last. */
  readonly moments: readonly MomentFact[]
  readonly leftOut: readonly {
    readonly sittings: readonly Pick<SittingPart, 'code' | 'number'>[]
    readonly why: string
    readonly at: Stamp
  }[]
  /** What was told in this record of a series that waited. */
  readonly wentOn: readonly (SeriesGoAhead & { readonly at: Stamp })[]
  readonly exceptions: readonly ExceptionFact[]
  readonly flags: readonly { readonly flag: Flag; readonly detail?: string; readonly at: Stamp }[]
  readonly fists: readonly Stamp[]
  /** When blood was pressed out of a finger or heel. */
  readonly squeezes: readonly Stamp[]
  /** Closed tubes that fell and were whole. */
  readonly fell: readonly { readonly tubeId: string; readonly at: Stamp }[]
  /** Tubes found without a label, each with what was decided. */
  readonly unlabelled: readonly {
    readonly tubeId: string
    readonly how: UnlabelledEnd
    readonly by: string
    /** The number that it had in this record. */
    readonly number: string
    readonly at: Stamp
  }[]
  readonly bloodApproved: readonly {
    readonly by: string
    readonly why: string
    readonly at: Stamp
  }[]
  readonly remarks: readonly { readonly text: string; readonly by: string; readonly at: Stamp }[]
  /** When the record was as it is now. */
  readonly recordedAt: Stamp
  /** Times that were first written while the clock stood wrong, and are told here as known now. */
  readonly corrections: readonly TimeCorrection[]
  readonly clockSteps: readonly { readonly by_ms: number; readonly at: Stamp }[]
  readonly aways: readonly {
    /** `undefined` when nobody can know how long. */
    readonly away_ms: number | undefined
    readonly bandWasOn: boolean
    readonly at: Stamp
  }[]
  /** Entries that were taken back; when, and the hash of the entry that did it. */
  readonly retracted: readonly {
    readonly entry: LogEntry
    readonly at: Stamp
    readonly hash: string
  }[]
  /** Why tubes are missing, a code of `END_REASONS` or, in an older draw, a text; the last that was said. */
  readonly endReason?: string
  readonly closed?: { readonly outcome: Outcome; readonly reason?: string; readonly at: Stamp }
  readonly addenda: readonly {
    readonly by: Collector
    readonly text: string
    readonly why: string
    readonly at: Stamp
    readonly wrongPerson?: true
    /** Of its entry in the log. */
    readonly hash: string
  }[]
}
