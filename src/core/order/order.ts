export const SEXES = ['female', 'male'] as const
export type Sex = (typeof SEXES)[number]

/** Who is in the chair. Dates are `YYYY-MM-DD`. */
export interface Patient {
  /** As the patient is asked for it. */
  readonly fullName: string
  /** Absent in records from before it was asked; a label then has only the full name. */
  readonly familyName?: string
  /** Absent too for a person with one name. */
  readonly givenNames?: string
  readonly birthDate: string
  readonly recordNumber: string
  readonly sex?: Sex
  /** Needed under 18 years: without it a blood volume limit cannot be worked out. */
  readonly weight_kg?: number
  /** Percent, if known from an earlier count. */
  readonly haematocrit_pct?: number
}

export const PRIORITIES = ['routine', 'urgent', 'asap', 'stat'] as const
export type Priority = (typeof PRIORITIES)[number]

/** The specimens that a recollection is for. */
export interface Recollects {
  readonly drawId: string
  readonly tubeIds: readonly string[]
  /** Code of HL7 table 0490, or a reason of our own: `notDrawn`. */
  readonly reason: string
  readonly note?: string
}

/** One of several orders that share a draw. `tests` are those of the draw that it asks for. */
export interface OrderPart {
  readonly orderNumber: string
  readonly tests: readonly string[]
  readonly provider?: string
  readonly providerNumber?: string
  readonly orderedAt?: string
  readonly priority: Priority
  readonly laboratory?: string
  /** Its id on the day's list. */
  readonly listed?: string
}

/** What was asked for, and by whom. `tests` are catalogue codes. */
export interface Order {
  readonly orderNumber: string
  readonly tests: readonly string[]
  readonly provider?: string
  /** The number of who ordered, as the order gives it. */
  readonly providerNumber?: string
  /** When it was ordered: `2026-11-25` or with the time, `2026-11-25T08:30`. */
  readonly orderedAt?: string
  /** Ward, room or other place of the patient. */
  readonly ward?: string
  /** Number of the visit or stay. */
  readonly visitNumber?: string
  /** Second number for transfusion, from a band of its own. */
  readonly bandNumber?: string
  readonly priority: Priority
  /** Where several orders share the draw, each of them: the rest of this is the first one's. */
  readonly parts?: readonly OrderPart[]
}

export const ARMS = ['left', 'right'] as const
export type Arm = (typeof ARMS)[number]

export const ARM_RESTRICTIONS = ['fistula', 'nodeRemoval', 'infusion', 'injury', 'other'] as const
export type ArmRestriction = (typeof ARM_RESTRICTIONS)[number]

/** `unknown`: nobody knows, or a log from before `notAsked` was told apart; `notAsked`: never asked. */
export const ANTICOAGULANTS = ['none', 'heparin', 'other', 'unknown', 'notAsked'] as const
export type Anticoagulant = (typeof ANTICOAGULANTS)[number]

/** What a patient may be allergic to of what is put on skin. */
export const ANTISEPTIC_ALLERGIES = ['none', 'chlorhexidine', 'iodine', 'alcohol', 'other'] as const
export type AntisepticAllergy = (typeof ANTISEPTIC_ALLERGIES)[number]

/** One, or each of several; a record from before several could be held has one. */
export type AntisepticAllergies = AntisepticAllergy | readonly AntisepticAllergy[]

/** Each of what is held; none where nothing was asked. */
export function allergiesOf(held: AntisepticAllergies | undefined): readonly AntisepticAllergy[] {
  if (held === undefined) return []
  return typeof held === 'string' ? [held] : held
}

/** What is held once one more was told: "none" and any other take each other's place. */
export function withAllergy(
  held: AntisepticAllergies | undefined,
  told: AntisepticAllergy,
): AntisepticAllergies {
  const others = allergiesOf(held).filter((each) => each !== 'none' && each !== told)
  return told === 'none' || others.length === 0 ? told : [...others, told]
}

/** How a newborn is fed; what a screening laboratory asks for (BMJ Glob Health, table of sample information). */
export const FEEDINGS = ['breast', 'formula', 'parenteral', 'nothing'] as const
export type Feeding = (typeof FEEDINGS)[number]

/** How old a newborn is, where only that is known. */
export const AGES_TOLD = ['underDay', 'dayOrMore'] as const
export type AgeTold = (typeof AGES_TOLD)[number]

/** When a drug was last given before its level is drawn. */
export interface LastDose {
  /** Code of the test. */
  readonly test: string
  /** Local time, `2026-11-25T06:00`; missing: nobody knows. */
  readonly at?: string
  /** Hours that must have passed since. */
  readonly least_h?: number
}

/** Answers taken before the draw. `undefined` in a field that allows it means not asked. */
export interface Preparation {
  /** Hours since food; `undefined` = not asked. */
  readonly fasted_h?: number
  readonly anticoagulant: Anticoagulant
  readonly latexAllergy?: boolean
  readonly antisepticAllergy?: AntisepticAllergies
  readonly restrictions: { readonly left?: ArmRestriction; readonly right?: ArmRestriction }
  readonly faintedBefore?: boolean
  /** mL of blood taken in the policy's period before today, entered by hand. */
  readonly earlierDraws_mL?: number
  /** Of the drug levels that are ordered; each with what is known of it. */
  readonly lastDoses?: readonly LastDose[]
  /** Of a newborn: local time of birth, `2026-11-25T06:00`. */
  readonly bornAt?: string
  readonly ageTold?: AgeTold
  readonly feeding?: Feeding
  /** Local time of the last feed. */
  readonly lastFeedAt?: string
  /** Blood or blood products were given since birth. */
  readonly transfused?: boolean
}

/** One answer of the preparation, taken at the chair. */
export type PreparationAnswer = Partial<
  Pick<
    Preparation,
    | 'latexAllergy'
    | 'antisepticAllergy'
    | 'anticoagulant'
    | 'faintedBefore'
    | 'ageTold'
    | 'feeding'
    | 'transfused'
  >
>

export const GAUGES = [21, 22, 23, 25] as const
export type Gauge = (typeof GAUGES)[number]

export const NEEDLE_KINDS = ['winged', 'straight'] as const
export type NeedleKind = (typeof NEEDLE_KINDS)[number]

export const WALLS = ['regular', 'thin', 'ultraThin'] as const
export type Wall = (typeof WALLS)[number]

/** The needle and its tubing as printed on the packet; a hub colour is never read for it. */
export interface NeedleSet {
  readonly kind: NeedleKind
  readonly gauge: Gauge
  /** `undefined` in a draw from before walls were asked: see `wallOf`. */
  readonly wall?: Wall
  readonly needle_mm: number
  readonly tubing_mm: number
  readonly tubingBore_mm: number
  /** Blood is drawn into a syringe of that size, and from it into the tubes; missing: into tubes, by a holder. */
  readonly syringe_mL?: SyringeSize
}

/**
 * Sizes of syringe, mL. A larger one pulls a vein shut (20 mL at most: army training course MD0533, blood drawing by
 * needle and syringe, excerpt); which sizes there are is common practice, no source.
 */
export const SYRINGES_mL = [3, 5, 10, 20] as const
export type SyringeSize = (typeof SYRINGES_mL)[number]

/**
 * The wall to reckon with where the packet's was not recorded: winged sets in common use are thin-walled (common
 * practice, no source), straight needles are taken as regular.
 */
export function usualWall(kind: NeedleKind): Wall {
  return kind === 'winged' ? 'thin' : 'regular'
}

/** What was stopped at and needs somebody who may decide it. */
export const DECISION_SUBJECTS = [
  'preparation',
  'volumeLimit',
  'bothArms',
  'restrictedArm',
  'missingTube',
  'redraw',
  'wristband',
  'otherPlanProblem',
] as const
export type DecisionSubject = (typeof DECISION_SUBJECTS)[number]

/** A named provider lets a stop be passed before the draw is opened. Decisions in the draw are events of it. */
export interface Approval {
  readonly about: DecisionSubject
  /** Who decided, as told to the collector. */
  readonly by: string
  readonly reason: string
  /** Wall time when it was entered, ms since 1970 UTC. */
  readonly at_ms: number
}

/** The person at the chair. Attempts are counted by `id`. */
export interface Collector {
  readonly id: string
  readonly name: string
  readonly initials: string
}
