import type { PlanInput } from '../../core/plan/planInput.ts'
import type { SkinPlace } from '../../core/order/collecting.ts'
import type { StockTube } from '../../core/catalogue/catalogue.ts'
import { filledDraft } from './filledDraft.ts'
import type { OrderDraft } from './orderDraft.ts'
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
    lastDoses: {},
    moments: {},
    fasted_h: '',
    anticoagulant: 'notAsked',
    latexAllergy: '',
    antisepticAllergy: '',
    antisepticAllergyToo: '',
    restrictionLeft: '',
    restrictionRight: '',
    faintedBefore: '',
    earlierDraws_mL: '',
    bornAt: '',
    lastFeedAt: '',
    feeding: '',
    transfused: '',
    collecting: 'venous',
    patientLanguage: '',
    needleSet: site.demo.needleSet,
    questions: [],
    served: undefined,
  }
}

/** The form filled in with the invented demonstration. */
export const demoDraft = (site: SiteData): OrderDraft => filledDraft(site.demo, true)

/** Where drops are collected; `undefined` for a vein. */
export function skinPlaceOf({ collecting }: Pick<OrderDraft, 'collecting'>): SkinPlace | undefined {
  return collecting === 'venous' ? undefined : collecting
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
    collecting: skinPlaceOf(draft),
    catalogue: site.catalogue,
    // The shipped stock is invented, like the patients it is for.
    stock: draft.invented ? site.stock : ownStock,
    bloodLimits: site.bloodLimits,
    policy: site.policy,
    fillCorrections: site.fillCorrections,
    texts: site.texts,
    today,
  }
}
