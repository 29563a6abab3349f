import type { OrderDraft } from './orderDraft.ts'

/** The fields of the form from top to bottom: in this order a person is told what to put right. */
export const FIELD_ORDER = [
  'questions',
  'fullName',
  'familyName',
  'givenNames',
  'oneName',
  'birthDate',
  'recordNumber',
  'weight_kg',
  'sex',
  'haematocrit_pct',
  'earlierDraws_mL',
  'tests',
  'lastDoses',
  'bornAt',
  'lastFeedAt',
  'feeding',
  'transfused',
  'orderNumber',
  'priority',
  'provider',
  'providerNumber',
  'orderedAt',
  'ward',
  'visitNumber',
  'bandNumber',
  'fasted_h',
  'anticoagulant',
  'latexAllergy',
  'antisepticAllergy',
  'faintedBefore',
  'antisepticAllergyToo',
  'restrictionLeft',
  'restrictionRight',
  'collecting',
  'needleSet',
] as const satisfies readonly (keyof OrderDraft)[]

/** Compares fields by their place in the form. */
export const byPlaceInForm = (a: keyof OrderDraft, b: keyof OrderDraft): number =>
  FIELDS.indexOf(a) - FIELDS.indexOf(b)

const FIELDS: readonly (keyof OrderDraft)[] = FIELD_ORDER
