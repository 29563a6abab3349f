import type { Language } from '../../core/basics/language.ts'
import type { NotedMoment } from '../../core/order/sitting.ts'
import type { Collecting } from '../../core/order/collecting.ts'
import type {
  Anticoagulant,
  AntisepticAllergy,
  Feeding,
  NeedleSet,
  OrderPart,
  Priority,
  Recollects,
  Sex,
} from '../../core/order/order.ts'

/** `''` = not asked. */
export type Answer = '' | 'yes' | 'no'

/** Orders of the day's list that a form is filled with. */
export interface ServedOrders {
  readonly ids: readonly string[]
  /** The person whom they are for: a form that names another serves them no more. */
  readonly recordNumber: string
  readonly birthDate: string
  /** Where there are several. */
  readonly parts?: readonly OrderPart[]
  readonly recollects?: Recollects
}

/** The new-draw form as typed; nothing is required until the plan is asked for. */
export interface OrderDraft {
  readonly invented: boolean
  /** The whole name as an order file writes it; empty when the name was typed in its parts. */
  readonly fullName: string
  readonly familyName: string
  readonly givenNames: string
  /** The person has one name, which stands as the family name. */
  readonly oneName: boolean
  readonly birthDate: string
  readonly recordNumber: string
  readonly sex: '' | Sex
  readonly weight_kg: string
  readonly haematocrit_pct: string
  readonly orderNumber: string
  readonly provider: string
  readonly providerNumber: string
  readonly orderedAt: string
  readonly ward: string
  readonly visitNumber: string
  readonly bandNumber: string
  readonly priority: Priority
  /** Codes of tests and series; a test may stand as often as it is ordered. */
  readonly tests: readonly string[]
  /** When the last dose was, `2026-11-25T06:00`, by the code of the test; empty or missing: not known. */
  readonly lastDoses: Readonly<Record<string, string>>
  /** When what the first sample is counted from was or will be, as `lastDoses`; missing: told later. */
  readonly moments: Readonly<Partial<Record<NotedMoment, string>>>
  /** `''` = not asked. */
  readonly fasted_h: string
  readonly anticoagulant: Anticoagulant
  readonly latexAllergy: Answer
  /** `''` = not asked. */
  readonly antisepticAllergy: '' | AntisepticAllergy
  /** A second one; `''` = none is known of. */
  readonly antisepticAllergyToo: '' | AntisepticAllergy
  readonly restrictionLeft: '' | 'fistula' | 'nodeRemoval' | 'infusion' | 'injury' | 'other'
  readonly restrictionRight: '' | 'fistula' | 'nodeRemoval' | 'infusion' | 'injury' | 'other'
  readonly faintedBefore: Answer
  readonly earlierDraws_mL: string
  /** Of a newborn whose card is wanted: local times, `2026-11-25T06:00`; `''` = not asked. */
  readonly bornAt: string
  readonly lastFeedAt: string
  readonly feeding: '' | Feeding
  readonly transfused: Answer
  readonly collecting: Collecting
  /** What the patient is told and given is in this language; `''` = that of the screens. */
  readonly patientLanguage: '' | Language
  readonly needleSet: NeedleSet
  /** What an order file left open; each must be confirmed before the tubes are planned. */
  readonly questions: readonly DraftQuestion[]
  /** `undefined`: it is of no listed order. */
  readonly served: ServedOrders | undefined
}

export interface DraftQuestion {
  /** A sentence or two that end in a question to be answered with yes. */
  readonly text: string
  readonly confirmed: boolean
}

/** A field of the draft that cannot be used, in words a person can act on. */
export interface DraftError {
  readonly field: keyof OrderDraft
  readonly text: string
}
