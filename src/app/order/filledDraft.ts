import type { SkinPlace } from '../../core/order/collecting.ts'
import {
  allergiesOf,
  type NeedleSet,
  type Order,
  type Patient,
  type Preparation,
} from '../../core/order/order.ts'
import type { Answer, OrderDraft } from './orderDraft.ts'

/** What a draft is filled with. */
export interface DraftSource {
  readonly patient: Patient
  readonly order: Order
  readonly preparation: Preparation
  readonly needleSet: NeedleSet
  /** Not from a vein. */
  readonly collecting?: SkinPlace
}

/** The form as somebody would have typed it for this patient and order. */
export function filledDraft(
  { patient, order, preparation, needleSet, collecting }: DraftSource,
  invented: boolean,
): OrderDraft {
  const text = (value: number | undefined): string => (value === undefined ? '' : String(value))
  return {
    invented,
    fullName: patient.fullName,
    familyName: patient.familyName ?? '',
    givenNames: patient.givenNames ?? '',
    oneName: patient.familyName !== undefined && patient.givenNames === undefined,
    birthDate: patient.birthDate,
    recordNumber: patient.recordNumber,
    sex: patient.sex ?? '',
    weight_kg: text(patient.weight_kg),
    haematocrit_pct: text(patient.haematocrit_pct),
    orderNumber: order.orderNumber,
    provider: order.provider ?? '',
    providerNumber: order.providerNumber ?? '',
    orderedAt: order.orderedAt ?? '',
    ward: order.ward ?? '',
    visitNumber: order.visitNumber ?? '',
    bandNumber: order.bandNumber ?? '',
    priority: order.priority,
    tests: order.tests,
    lastDoses: Object.fromEntries(
      (preparation.lastDoses ?? []).map(({ test, at }) => [test, at ?? '']),
    ),
    moments: {},
    fasted_h: text(preparation.fasted_h),
    anticoagulant: preparation.anticoagulant,
    latexAllergy: answerOf(preparation.latexAllergy),
    antisepticAllergy: allergiesOf(preparation.antisepticAllergy)[0] ?? '',
    antisepticAllergyToo: allergiesOf(preparation.antisepticAllergy)[1] ?? '',
    restrictionLeft: preparation.restrictions.left ?? '',
    restrictionRight: preparation.restrictions.right ?? '',
    faintedBefore: answerOf(preparation.faintedBefore),
    earlierDraws_mL: text(preparation.earlierDraws_mL),
    bornAt: preparation.bornAt ?? '',
    lastFeedAt: preparation.lastFeedAt ?? '',
    feeding: preparation.feeding ?? '',
    transfused: answerOf(preparation.transfused),
    patientLanguage: '',
    collecting: collecting ?? 'venous',
    needleSet,
    questions: [],
    served: undefined,
  }
}

function answerOf(value: boolean | undefined): Answer {
  if (value === undefined) return ''
  return value ? 'yes' : 'no'
}
