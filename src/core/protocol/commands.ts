import type { Language } from '../basics/language.ts'
import type {
  AgeTold,
  Anticoagulant,
  AntisepticAllergy,
  Arm,
  Collector,
  DecisionSubject,
  Feeding,
  NeedleSet,
  SyringeSize,
} from '../order/order.ts'
import type { SeriesGoAhead, SittingPart, NotedMoment } from '../order/sitting.ts'
import type { Plan } from '../plan/plan.ts'
import type { CueRef } from './cueId.ts'
import type { ExceptionKind } from './exceptions.ts'
import type { Antiseptic } from './antiseptics.ts'
import type { BenchAct } from './benchEvents.ts'
import type { ConsentHow } from './consentHow.ts'
import type {
  ArmFinding,
  CircleFinding,
  EndReason,
  IdentifiedBy,
  NamedDecision,
  UnlabelledEnd,
  VeinReason,
  Vein,
} from './events.ts'

/**
 * What a person can say, touch, type or scan: one list for every input.
 * A plain command carries nothing; the few that carry something are spelt out below.
 */
export const PLAIN_COMMANDS = [
  'confirmPatient',
  'refuseIdentity',
  'confirmConsent',
  'refuseConsent',
  'confirmPreparation',
  'latexNo',
  'latexYes',
  'faintedNo',
  'faintedYes',
  'confirmSupplies',
  'confirmHands',
  'seated',
  'lyingDown',
  'bandOn',
  'bandOff',
  'skinClean',
  'skinDry',
  'needleIn',
  'flashSeen',
  'noFlash',
  'tubeOn',
  'tubeFull',
  'tubeShort',
  'tubeEmpty',
  'tubeMixed',
  'onIce',
  'keptWarm',
  'keptDark',
  'tubeIntact',
  'lastTube',
  'needleOut',
  'pressureOn',
  'shieldClicked',
  'sharpsDone',
  'bleedingStopped',
  'bandageOn',
  'labelMatches',
  'labelWrong',
  'labelsDone',
  'aftercareTold',
  'glovesOff',
  'specimensRacked',
  'spinStarted',
  'courierTook',
  'drinkStarted',
  'drinkFinished',
  'doseGiven',
  'infusionEnded',
  'slowFlow',
  'flowLost',
  'flowRestored',
  'noVacuum',
  'wrongTube',
  'expiredTube',
  'droppedTube',
  'unlabelledTube',
  'veinRolled',
  'swelling',
  'brightBlood',
  'sharpPain',
  'faint',
  'nausea',
  'bleedingContinues',
  'withdrawConsent',
  'needlestick',
  'colleagueHere',
  'interrupted',
  'resumeDraw',
  'stopEverything',
  'exceptionHandled',
  'tryAgain',
  'sameSet',
  'endDraw',
  'confirmYes',
  'confirmNo',
  'goBack',
  'sayAgain',
  'howLong',
  'pauseListening',
  'resumeListening',
  'tonesOnly',
  'wordsAgain',
  'printLabels',
  'fistSeen',
  'warmOn',
  'siteWarm',
  'lanced',
  'dropWiped',
  'squeezed',
  'slowDrops',
  'transfusedNo',
  'transfusedYes',
  'cardChecked',
  'circleGood',
  'cardDone',
  'anotherCard',
  'laidFlat',
  'cardDried',
  'syringeFull',
  'syringeShort',
  'transferOn',
] as const
export type PlainCommand = (typeof PLAIN_COMMANDS)[number]

/** Commands a phrase or key can stand for: the plain ones and the few with a fixed choice in them. */
export const CHOICE_KEYS = [
  'chooseArm:left',
  'chooseArm:right',
  'chooseSide:left',
  'chooseSide:right',
  'chooseVein:medianCubital',
  'chooseVein:cephalic',
  'chooseVein:basilic',
  'chooseVein:hand',
  'chooseVein:other',
  'identified:carer',
  'identified:interpreter',
  'identified:wristband',
  'antisepticAllergy:none',
  'antisepticAllergy:chlorhexidine',
  'antisepticAllergy:iodine',
  'antisepticAllergy:alcohol',
  'antisepticAllergy:other',
  'skinCleanWith:alcohol',
  'skinCleanWith:chlorhexidineAlcohol',
  'skinCleanWith:povidoneIodine',
  'skinCleanWith:alcoholFree',
  'chooseSet:straight21',
  'chooseSet:straight22',
  'chooseSet:winged21',
  'chooseSet:winged23',
  'chooseSet:winged25',
  'chooseSyringe:3',
  'chooseSyringe:5',
  'chooseSyringe:10',
  'chooseSyringe:20',
  'armFinding:none',
  'armFinding:bruise',
  'armFinding:scar',
  'armFinding:infusion',
  'thinner:none',
  'thinner:heparin',
  'thinner:other',
  'thinner:unknown',
  'consentFrom:guardian',
  'consentFrom:guardianWritten',
  'consentFrom:interpreter',
  'consentFrom:written',
  'consentFrom:implied',
  'ageTold:underDay',
  'ageTold:dayOrMore',
  'feeding:breast',
  'feeding:formula',
  'feeding:parenteral',
  'feeding:nothing',
  'circleBad:insufficient',
  'circleBad:layered',
  'circleBad:clotted',
  'unlabelledIs:1',
  'unlabelledIs:2',
  'unlabelledIs:3',
  'unlabelledIs:4',
  'unlabelledIs:5',
  'unlabelledIs:6',
  'unlabelledEnd:stayedInHand',
  'unlabelledEnd:discarded',
  'unlabelledEnd:sentAsIs',
  'goToVein:notEnough',
  'goToVein:needsVein',
  'goToVein:decided',
  'endBecause:absent',
  'endBecause:noVein',
  'endBecause:unwell',
  'endBecause:cancelled',
] as const
/** Tubes of the rack that can be named by their number. */
export const UNLABELLED_NUMBERS = [1, 2, 3, 4, 5, 6] as const
export type UnlabelledNumber = (typeof UNLABELLED_NUMBERS)[number]

export type CommandKey = PlainCommand | (typeof CHOICE_KEYS)[number]

export type Command =
  | { readonly type: PlainCommand }
  | { readonly type: 'chooseArm'; readonly arm: Arm }
  /** Of a finger or heel. */
  | { readonly type: 'chooseSide'; readonly arm: Arm }
  | { readonly type: 'chooseVein'; readonly vein: Vein }
  /** Somebody else than the patient says both identifiers, or they are read from the wristband. */
  | { readonly type: 'identified'; readonly by: Exclude<IdentifiedBy, 'patient' | 'scan'> }
  | { readonly type: 'antisepticAllergy'; readonly allergy: AntisepticAllergy }
  | { readonly type: 'skinCleanWith'; readonly antiseptic: Antiseptic }
  /** Another needle or set than the last, as its packet says. */
  | { readonly type: 'chooseSet'; readonly set: NeedleSet }
  /** The same needle on a syringe, which is then emptied through a transfer device. */
  | { readonly type: 'chooseSyringe'; readonly mL: SyringeSize }
  /** The syringe was pulled, and holds so much. */
  | { readonly type: 'syringeHolds'; readonly estimate_mL: number }
  /** What is seen at the arm that was chosen. */
  | { readonly type: 'armFinding'; readonly finding: ArmFinding }
  /** A blood thinner, as the patient says when asked. */
  | { readonly type: 'thinner'; readonly kind: Exclude<Anticoagulant, 'notAsked'> }
  /** About a newborn whose card is wanted. */
  | { readonly type: 'ageTold'; readonly age: AgeTold }
  | { readonly type: 'feeding'; readonly feeding: Feeding }
  | { readonly type: 'circleBad'; readonly finding: Exclude<CircleFinding, 'good'> }
  | { readonly type: 'consentFrom'; readonly how: ConsentHow }
  /** The tube without a label, by its number in the rack; then what becomes of it, said by whoever draws. */
  | { readonly type: 'unlabelledIs'; readonly number: UnlabelledNumber }
  | { readonly type: 'unlabelledEnd'; readonly how: UnlabelledEnd }
  /** What a finger or heel does not give is drawn from a vein. */
  | { readonly type: 'goToVein'; readonly why: VeinReason }
  /** Ends the draw, or the part of it that draws blood, and says why. */
  | { readonly type: 'endBecause'; readonly reason: EndReason }
  | { readonly type: 'notPrepared'; readonly what: string }
  | {
      readonly type: 'nameDecision'
      readonly decision: NamedDecision
      readonly by: string
      /** Missing: the preparation. */
      readonly about?: DecisionSubject
      /** Of a decision about a closed arm: which. */
      readonly arm?: Arm
      readonly why?: string
    }
  /** A tube other than the next one was put on. */
  | { readonly type: 'tubeOnNamed'; readonly tubeId: string }
  | { readonly type: 'tubeShortBy'; readonly estimate_mL: number }
  /** What becomes of a tube that was found without a label, and who says so. */
  | {
      readonly type: 'settleUnlabelled'
      readonly tubeId: string
      readonly how: UnlabelledEnd
      readonly by: string
    }
  | {
      readonly type: 'scanLabel'
      readonly text: string
      /** Another draw on this device in which a tube has that number. */
      readonly usedIn?: string
    }
  /** The number on the laboratory's own label, typed in for a tube. */
  | {
      readonly type: 'takeAccession'
      readonly tubeId: string
      readonly text: string
      readonly usedIn?: string
    }
  | {
      readonly type: 'raise'
      readonly kind: ExceptionKind
      readonly note?: string
      /** Which tube is lost, where it is not the one on the holder or the last one drawn. */
      readonly tubeId?: string
    }
  /** A provider decided that more blood than the limit is taken. */
  | { readonly type: 'approveBlood'; readonly by: string; readonly why: string }
  /** A moment of a series at a time that somebody tells, or told wrong before. */
  | {
      readonly type: 'noteMoment'
      readonly moment: NotedMoment
      readonly at_ms: number
      readonly why?: string
    }
  | {
      readonly type: 'leaveOut'
      readonly sittings: readonly Pick<SittingPart, 'code' | 'number'>[]
      readonly why: string
    }
  /** The rest of a series is drawn although something happened in one of its draws. */
  | ({ readonly type: 'goOnWithSeries' } & SeriesGoAhead)
  /** What is done with specimens after the draw, or heard of them; `actor`: the id of who did it, if not who draws. */
  | { readonly type: 'benchAct'; readonly act: BenchAct; readonly actor?: string }
  /** An act on the bench was said in error, by its id. */
  | { readonly type: 'takeBackAct'; readonly act: string; readonly actor?: string }
  | { readonly type: 'handOver'; readonly to: Collector }
  | { readonly type: 'addNote'; readonly text: string }
  | { readonly type: 'noteExposure'; readonly text: string }
  /** What the patient is told and given is in this language from now on. */
  | { readonly type: 'choosePatientLanguage'; readonly language: Language }
  | { readonly type: 'revisePlan'; readonly plan: Plan; readonly why: string }
  | {
      readonly type: 'makeAddendum'
      readonly by: Collector
      readonly text: string
      readonly why: string
      readonly wrongPerson?: true
    }
  /** The app's own: a cue of a clock came due; the page woke; a clock was set. */
  | {
      readonly type: 'giveCue'
      readonly cue: CueRef
      readonly late_ms: number
    }
  | { readonly type: 'noticeAway'; readonly away_ms: number }
  | { readonly type: 'noticeClockStep'; readonly by_ms: number }
