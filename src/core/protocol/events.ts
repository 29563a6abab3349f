import type { Language } from '../basics/language.ts'
import type {
  Approval,
  Arm,
  Collector,
  DecisionSubject,
  NeedleSet,
  Order,
  Patient,
  Preparation,
  PreparationAnswer,
  Recollects,
} from '../order/order.ts'
import type { DrawSitting, SeriesGoAhead, SittingPart, NotedMoment } from '../order/sitting.ts'
import type { FillCorrection } from '../flow/fillCorrection.ts'
import type { SkinPlace } from '../order/collecting.ts'
import type { Fill, Plan } from '../plan/plan.ts'
import type { Policy, PolicyChange } from '../policy/policy.ts'
import type { Antiseptic } from './antiseptics.ts'
import type { BenchEvent } from './benchEvents.ts'
import type { ExceptionKind } from './exceptions.ts'

export const VEINS = ['medianCubital', 'cephalic', 'basilic', 'hand', 'other'] as const
export type Vein = (typeof VEINS)[number]

export const IDENTIFIERS = ['fullName', 'birthDate', 'recordNumber'] as const
export type Identifier = (typeof IDENTIFIERS)[number]

/** Who said the identifiers, or what they were read from. */
export const IDENTIFIED_BY = ['patient', 'carer', 'interpreter', 'wristband', 'scan'] as const
export type IdentifiedBy = (typeof IDENTIFIED_BY)[number]

/** Who agreed: the patient also through an interpreter. */
export const CONSENT_BY = ['patient', 'guardian', 'interpreter'] as const
export type ConsentBy = (typeof CONSENT_BY)[number]
export const CONSENT_FORMS = ['spoken', 'written', 'implied'] as const
export type ConsentForm = (typeof CONSENT_FORMS)[number]

/** What is seen at the arm before it is used, that nobody told. */
export const ARM_FINDINGS = ['none', 'bruise', 'scar', 'infusion'] as const
export type ArmFinding = (typeof ARM_FINDINGS)[number]

/**
 * What is seen at a circle of a newborn card: soaked through by one drop, not filled or not through to the back, more
 * than one drop on it, or clotted (what state programs refuse: Montana's page on specimen quality, excerpt).
 */
export const CIRCLE_FINDINGS = ['good', 'insufficient', 'layered', 'clotted'] as const
export type CircleFinding = (typeof CIRCLE_FINDINGS)[number]

/** How the patient is placed for the draw; never standing. */
export const POSITIONS = ['seated', 'lying'] as const
export type Position = (typeof POSITIONS)[number]

/** What is decided where the draw was stopped at. */
export const NAMED_DECISIONS = ['proceed', 'stop'] as const
export type NamedDecision = (typeof NAMED_DECISIONS)[number]

/** Ways of losing a tube. */
export const SET_ASIDE = [
  'wrongTube',
  'expiredTube',
  'noVacuum',
  'droppedTube',
  'unlabelledTube',
  'badCircles',
] as const
export type SetAside = (typeof SET_ASIDE)[number]

/**
 * What becomes of a tube that was found without a label: it never left the hand and is labeled beside the patient; it
 * is thrown away; or the laboratory gets it as it is.
 */
export const UNLABELLED_ENDS = ['stayedInHand', 'discarded', 'sentAsIs'] as const
export type UnlabelledEnd = (typeof UNLABELLED_ENDS)[number]

/** Something recorded although it should not have been done in that order, or came too early or too late. */
export const FLAGS = [
  'identityNotChecked',
  'consentNotRecorded',
  'bandBeforeRest',
  'restrictedArm',
  'skinNotClean',
  'skinNotDry',
  'wrongAntiseptic',
  'infantChlorhexidine',
  'wristbandMismatch',
  'needleOutBandOn',
  'needleOutTubeOn',
  'thirdAttempt',
  'wrongOrder',
  'mixedLate',
  'bandOverLimit',
  'pressureShort',
  'siteNotWatched',
  'labelsLate',
  'labelsNotReadBack',
  'labelMismatch',
  'lostTubeLabel',
  'clockUncertain',
  'spunEarly',
  'spunTwice',
  'spunLate',
  'separatedLate',
  'keptCold',
  'sentLate',
  'actTimeUncertain',
  'overBloodLimit',
  'shieldNotClicked',
  'afterStop',
  'bandageTooYoung',
  'samePlace',
  'cardNotChecked',
  'cardWet',
  'transferUnsafe',
  'noTransferDevice',
  'transferLate',
] as const
export type Flag = (typeof FLAGS)[number]

/** Everything that can stand in a draw's log. Facts in the past tense, each once, nothing derived. */
export type DrawEvent =
  | {
      readonly type: 'drawOpened'
      readonly drawId: string
      readonly device: string
      /** True for the demonstration: the chart says so on every page. */
      readonly invented: boolean
      readonly site: string
      readonly patient: Patient
      readonly order: Order
      readonly preparation: Preparation
      /** Not used where `collecting` is there. */
      readonly needleSet: NeedleSet
      /** Blood is taken from here, drop by drop, and not from a vein. */
      readonly collecting?: SkinPlace
      readonly collector: Collector
      /** In which the patient is told and given things; not in older logs. */
      readonly patientLanguage?: Language
      readonly plan: Plan
      readonly policy: Policy
      readonly policyChanges: readonly PolicyChange[]
      /** The laboratory's own labels are put on and checked here, none is printed. */
      readonly labelsBy?: 'laboratory'
      /** Stops of the plan that a named provider let pass. */
      readonly approvals?: readonly Approval[]
      /** Of an order that is drawn several times: which time points this draw is. */
      readonly sitting?: DrawSitting
      /** What the site corrected of the predicted filling of its sets, and who accepted it. */
      readonly fillCorrections?: readonly FillCorrection[]
      /** Of practice: the name of the script that is rehearsed. */
      readonly script?: string
      /** Orders of the day's list that it serves, by their ids there. */
      readonly listed?: readonly string[]
      /** What is drawn again, and why. */
      readonly recollects?: Recollects
    }
  | {
      readonly type: 'identifierChecked'
      readonly identifier: Identifier
      readonly matches: boolean
      /** Missing: the patient said it. */
      readonly how?: IdentifiedBy
    }
  /** By whom and how; both are missing in a draw from before that was recorded. */
  | { readonly type: 'consentGiven'; readonly by?: ConsentBy; readonly form?: ConsentForm }
  | { readonly type: 'consentRefused' }
  | { readonly type: 'preparationChecked' }
  | { readonly type: 'notPrepared'; readonly what: string }
  | {
      readonly type: 'decisionNamed'
      readonly decision: NamedDecision
      readonly by: string
      /** `undefined` in a draw from before other stops could be passed: the preparation. */
      readonly about?: DecisionSubject
      /** The arm it is about; missing in a draw from before that was asked: the one chosen next. */
      readonly arm?: Arm
      readonly why?: string
    }
  /** Asked at the chair what the order left open. */
  | { readonly type: 'answerTaken'; readonly answer: PreparationAnswer }
  | { readonly type: 'suppliesChecked' }
  /** The newborn card: its details are complete, it is in date, nothing touched its circles. */
  | { readonly type: 'cardChecked' }
  | { readonly type: 'handsReady' }
  | { readonly type: 'positionTaken'; readonly position: Position }
  | { readonly type: 'armSeen'; readonly arm: Arm; readonly finding: ArmFinding }
  | {
      readonly type: 'siteChosen'
      readonly arm: Arm
      readonly vein?: Vein
      /** A finger or heel of a side that was lanced already: somebody said that it is another place on it. */
      readonly elsewhere?: true
    }
  | { readonly type: 'bandOn' }
  | { readonly type: 'bandOff' }
  /** `with` is missing in a draw from before it was asked. */
  | { readonly type: 'skinCleaned'; readonly with?: Antiseptic }
  | { readonly type: 'skinDry' }
  /** A further puncture is begun: site, cleansing and band start afresh. The first needs no event. */
  | { readonly type: 'punctureBegun'; readonly number: number }
  | { readonly type: 'needleIn'; readonly attempt: number }
  /** The needle and tubing opened for this puncture; the first has the one of the opening. */
  | { readonly type: 'needleSetChosen'; readonly set: NeedleSet }
  | { readonly type: 'flashSeen' }
  /** The syringe was pulled: to as much as was asked for, or short of it, where somebody says how much it holds. */
  | {
      readonly type: 'syringeFilled'
      readonly fill: Exclude<Fill, 'empty'>
      /** What was asked for, mL: the waiting tubes and what stays behind. */
      readonly planned_mL: number
      readonly estimate_mL?: number
    }
  /** The transfer device is on the syringe, in the place of the needle. */
  | { readonly type: 'transferOn' }
  /** A warm pack is on the finger or heel. */
  | { readonly type: 'warmOn' }
  /** It is warm, with or without a pack. */
  | { readonly type: 'siteWarm' }
  /** What a finger or heel does not give is drawn from a vein from here on. */
  | { readonly type: 'wentToVein'; readonly why: VeinReason }
  /** The lancet opened the skin. */
  | { readonly type: 'lanced'; readonly attempt: number }
  | { readonly type: 'dropWiped' }
  /** Blood was pressed out of the finger or heel. */
  | { readonly type: 'squeezeNoted' }
  | { readonly type: 'tubeOn'; readonly tubeId: string }
  | {
      readonly type: 'tubeOff'
      readonly tubeId: string
      readonly fill: Fill
      readonly estimate_mL?: number
    }
  | { readonly type: 'tubeMixed'; readonly tubeId: string }
  /** It is on ice, kept warm, kept from light, or laid flat to dry. */
  | {
      readonly type: 'tubeHandled'
      readonly tubeId: string
      readonly how: 'ice' | 'warm' | 'light' | 'dryFlat'
    }
  /** One circle of the card, as it was found. */
  | { readonly type: 'circleFilled'; readonly tubeId: string; readonly finding: CircleFinding }
  /** The card is dry. */
  | { readonly type: 'cardDried'; readonly tubeId: string }
  /** More blood than the limit of the opening: who decided, and why. */
  | { readonly type: 'bloodApproved'; readonly by: string; readonly why: string }
  | {
      readonly type: 'tubeSwapped'
      readonly tubeId: string
      readonly why: SetAside
      /**
       * Last part of the number for the tube drawn in its place, so that no label of the lost one fits it. Missing
       * where no blood had gone towards it, and in a draw from before: the number stays.
       */
      readonly redrawnAs?: number
    }
  /** A tube without a label: which, what was decided, and who says so. */
  | {
      readonly type: 'unlabelledSettled'
      readonly tubeId: string
      readonly how: UnlabelledEnd
      readonly by: string
    }
  /** A closed tube fell and is whole. */
  | { readonly type: 'tubeFell'; readonly tubeId: string }
  | { readonly type: 'lastTubeOff' }
  | { readonly type: 'needleOut' }
  | { readonly type: 'shieldClicked' }
  | { readonly type: 'sharpsDone' }
  | { readonly type: 'pressureOn' }
  | { readonly type: 'bleedingStopped' }
  | { readonly type: 'bandageOn' }
  | {
      readonly type: 'labelReadBack'
      readonly tubeId: string
      readonly specimenNumber: string
      readonly how: 'read' | 'scan'
      readonly matches: boolean
    }
  /** The lot that stands on the tube itself, as it was scanned; until then a lot is only planned. */
  | {
      readonly type: 'lotRead'
      readonly tubeId: string
      readonly lot: string
      readonly expires?: string
      readonly how: 'scan'
    }
  /** The number on the laboratory's own label for that tube. */
  | {
      readonly type: 'accessionTaken'
      readonly tubeId: string
      readonly accession: string
      readonly how: 'scan' | 'typed'
    }
  /** The reason is one of `END_REASONS`; missing where something in the draw is the reason. */
  | { readonly type: 'noFurtherPuncture'; readonly reason?: EndReason }
  | { readonly type: 'labelsDone' }
  | {
      readonly type: 'aftercareTold'
      /** In which language; not in older logs. */
      readonly language?: Language
    }
  | { readonly type: 'patientLanguageChosen'; readonly language: Language }
  /** Gloves off and hands cleaned after the patient. */
  | { readonly type: 'handsCleaned' }
  | { readonly type: 'specimensRacked' }
  | BenchEvent
  /** From when on the samples of a series are counted; the latest word stands, the earlier ones remain. */
  | {
      readonly type: 'momentNoted'
      readonly moment: NotedMoment
      /** ms since 1970 UTC as somebody told it; missing: at the time of the entry. */
      readonly at_ms?: number
      readonly why?: string
    }
  /** Sittings of the series that will not be drawn. */
  | {
      readonly type: 'sittingsLeftOut'
      readonly sittings: readonly Pick<SittingPart, 'code' | 'number'>[]
      readonly why: string
    }
  /** The rest of a series waited; somebody named lets it be drawn. */
  | ({ readonly type: 'seriesWentOn' } & SeriesGoAhead)
  | {
      readonly type: 'exceptionRaised'
      readonly kind: ExceptionKind
      readonly tubeId?: string
      readonly note?: string
    }
  | { readonly type: 'exceptionEnded'; readonly kind: ExceptionKind; readonly how: string }
  /** A colleague is with the patient from now on; who, is written when there is a hand for it. */
  | { readonly type: 'colleagueTook' }
  | { readonly type: 'collectorChanged'; readonly to: Collector }
  | { readonly type: 'fistNoted' }
  | { readonly type: 'noteAdded'; readonly text: string }
  /** About the person who was stuck: for the exposure record, never for the patient's. */
  | { readonly type: 'exposureNoted'; readonly text: string }
  | { readonly type: 'flagRaised'; readonly flag: Flag; readonly detail?: string }
  | {
      readonly type: 'cueGiven'
      readonly clock: string
      readonly cue: string
      readonly late_ms: number
    }
  | { readonly type: 'clockStepped'; readonly by_ms: number }
  | { readonly type: 'awayNoticed'; readonly away_ms: number; readonly bandWasOn: boolean }
  | { readonly type: 'planRevised'; readonly plan: Plan; readonly why: string }
  /** The entry with that number was said in error. The entry stays; the state no longer counts it. */
  | { readonly type: 'entryUndone'; readonly seq: number }
  /** The reason is one of `END_REASONS`; in an older draw it may be a text of its own. */
  | { readonly type: 'drawClosed'; readonly outcome: Outcome; readonly reason?: string }
  /** After the close: who corrects what, and why. The first text stays. */
  | {
      readonly type: 'addendumMade'
      readonly by: Collector
      readonly text: string
      readonly why: string
      /** What the record tells was done to another person than it names. */
      readonly wrongPerson?: true
    }

/** Why a draw ended with tubes missing, as far as nothing in it says so by itself; "not said" is an answer. */
export const END_REASONS = ['absent', 'noVein', 'unwell', 'cancelled', 'notSaid'] as const
export type EndReason = (typeof END_REASONS)[number]

/** Why a draw from a finger or heel goes on from a vein. */
export const VEIN_REASONS = ['notEnough', 'needsVein', 'decided'] as const
export type VeinReason = (typeof VEIN_REASONS)[number]

export const OUTCOMES = ['complete', 'partial', 'stopped', 'notDrawn'] as const
export type Outcome = (typeof OUTCOMES)[number]

export type DrawEventType = DrawEvent['type']
export type DrawOpened = Extract<DrawEvent, { type: 'drawOpened' }>
