import { allergiesOf } from '../../core/order/order.ts'
import type { PlanInput } from '../../core/plan/planInput.ts'
import type { StockTube } from '../../core/catalogue/catalogue.ts'
import type { Answer, OrderDraft } from './orderDraft.ts'
import type { DraftValues } from './readDraft.ts'
import type { SiteData } from '../site/siteData.ts'

/** A blank form for a new draw, with the needle set most sites use first. */
export function blankDraft(site: SiteData): OrderDraft {
  return {
    invented: false,
    fullName: '',
    familyName: '',
    givenNames: '',
    oneName: false,
    birthDate: '',
    recordNumber: '',
    sex: '',
    weight_kg: '',
    haematocrit_pct: '',
    orderNumber: '',
    provider: '',
    providerNumber: '',
    orderedAt: '',
    ward: '',
    visitNumber: '',
    bandNumber: '',
    priority: 'routine',
    tests: [],
    fasted_h: '',
    anticoagulant: 'notAsked',
    latexAllergy: '',
    antisepticAllergy: '',
    antisepticAllergyToo: '',
    restrictionLeft: '',
    restrictionRight: '',
    faintedBefore: '',
    earlierDraws_mL: '',
    needleSet: site.demo.needleSet,
    questions: [],
  }
}

/** The form filled in with the invented demonstration. */
export function demoDraft(site: SiteData): OrderDraft {
  const { patient, order, preparation, needleSet } = site.demo
  const text = (value: number | undefined): string => (value === undefined ? '' : String(value))
  return {
    invented: true,
    fullName: patient.fullName,
    familyName: patient.familyName ?? '',
    givenNames: patient.givenNames ?? '',
    oneName: false,
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
    fasted_h: text(preparation.fasted_h),
    anticoagulant: preparation.anticoagulant,
    latexAllergy: answerOf(preparation.latexAllergy),
    antisepticAllergy: allergiesOf(preparation.antisepticAllergy)[0] ?? '',
    antisepticAllergyToo: allergiesOf(preparation.antisepticAllergy)[1] ?? '',
    restrictionLeft: preparation.restrictions.left ?? '',
    restrictionRight: preparation.restrictions.right ?? '',
    faintedBefore: answerOf(preparation.faintedBefore),
    earlierDraws_mL: text(preparation.earlierDraws_mL),
    needleSet,
    questions: [],
  }
}

function answerOf(value: boolean | undefined): Answer {
  if (value === undefined) return ''
  return value ? 'yes' : 'no'
}

/** What the planner needs, from a form that could be read. */
export function planInput(
  values: DraftValues,
  draft: OrderDraft,
  site: SiteData,
  today: string,
  ownStock: readonly StockTube[] | undefined,
): PlanInput {
  return {
    patient: values.patient,
    order: values.order,
    preparation: values.preparation,
    needleSet: draft.needleSet,
    catalogue: site.catalogue,
    // The shipped stock is invented, like the patients it is for.
    stock: draft.invented ? site.stock : ownStock,
    bloodLimits: site.bloodLimits,
    policy: site.policy,
    texts: site.texts,
    today,
  }
}
