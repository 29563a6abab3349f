import { askedMoments } from './draftMoments.ts'
import type { Catalogue } from '../../core/catalogue/catalogue.ts'
import { sittingsOf } from '../../core/series/sittings.ts'
import { defined } from '../../core/basics/defined.ts'
import { fillText, type TextValues } from '../../core/basics/fillText.ts'
import { faulty, ok, type Result } from '../../core/basics/result.ts'
import {
  withAllergy,
  type AntisepticAllergies,
  type LastDose,
  type Order,
  type Patient,
  type Preparation,
} from '../../core/order/order.ts'
import { fullNameOf, isMadeOf } from '../../core/order/patientName.ts'
import { isDay } from '../../core/time/format.ts'
import { localTime_ms } from '../../core/time/localTime.ts'
import { readText } from '../../core/text/readText.ts'
import { quoted } from '../../core/text/shownText.ts'
import { textFaultSentence } from '../../core/text/textFaultSentence.ts'
import { birthDateFault, OLDEST_y } from '../../core/order/birthDate.ts'
import type { Texts } from '../site/texts.ts'
import { byPlaceInForm } from './draftOrder.ts'
import { NUMBER_RANGES, readNumber, thousandsOf, type NumberField } from './draftNumbers.ts'
import type { DraftError, OrderDraft } from './orderDraft.ts'
import type { DraftFaultId } from '../site/orderTexts.ts'

/** The form's text as values. */
export interface DraftValues {
  readonly patient: Patient
  readonly order: Order
  readonly preparation: Preparation
}

/**
 * Reads the new-draw form. Nothing is guessed, nothing absurd is let through, and nothing that a file left open is
 * passed over.
 * @param today `YYYY-MM-DD`
 */
export function readDraft(
  draft: OrderDraft,
  today: string,
  texts: Pick<Texts, 'order' | 'text' | 'language'>,
  catalogue: Pick<Catalogue, 'series' | 'doses'> = {},
): Result<DraftValues, DraftError> {
  const errors: DraftError[] = []
  const wrong = (field: keyof OrderDraft, id: DraftFaultId, values: TextValues = {}): void => {
    errors.push({ field, text: fillText(texts.order.draft[id], values) })
  }
  const text = (field: WordField, use: 'name' | 'identifier', needed = true): string => {
    const label = texts.order.fields[field]
    const read = readText(draft[field], use)
    if (!read.ok) {
      const [fault] = read.faults
      if (fault) errors.push({ field, text: textFaultSentence(fault, label, texts.text) })
      return ''
    }
    if (needed && read.value === '') wrong(field, 'missing', { field: label })
    return read.value
  }
  const number = (field: NumberField): number | undefined => {
    const value = readNumber(field, draft[field])
    if (typeof value !== 'string') return value
    errors.push({ field, text: draftNumberFault(field, draft[field], texts) ?? value })
    return undefined
  }

  const written = text('fullName', 'name', false)
  const familyName = text('familyName', 'name')
  const givenNames = draft.oneName ? '' : text('givenNames', 'name')
  const named = errors.length === 0
  if (named && written !== '' && !isMadeOf(written, { familyName, givenNames })) {
    wrong('fullName', 'otherName', { name: quoted(written) })
  }
  const recordNumber = text('recordNumber', 'identifier')
  const orderNumber = text('orderNumber', 'identifier')
  const provider = text('provider', 'name', false)
  const providerNumber = text('providerNumber', 'identifier', false)
  const ward = text('ward', 'name', false)
  const visitNumber = text('visitNumber', 'identifier', false)
  const bandNumber = text('bandNumber', 'identifier', false)
  const orderedAt = draft.orderedAt.trim()
  if (orderedAt !== '' && !isDayAndMaybeTime(orderedAt))
    wrong('orderedAt', 'notADay', { field: texts.order.fields.orderedAt })
  else if (orderedAt.slice(0, 10) > today)
    wrong('orderedAt', 'inFuture', { field: texts.order.fields.orderedAt })
  const birthDate = draft.birthDate.trim()
  const born = birthDateFault(birthDate, today)
  if (birthDate === '') wrong('birthDate', 'missing', { field: texts.order.fields.birthDate })
  else if (born) wrong('birthDate', born, { years: OLDEST_y, field: texts.order.fields.birthDate })
  if (draft.tests.length === 0) wrong('tests', 'noTest')
  const weight_kg = number('weight_kg')
  const haematocrit_pct = number('haematocrit_pct')
  const fasted_h = number('fasted_h')
  const earlierDraws_mL = number('earlierDraws_mL')
  const lastDoses = dosesOf(draft, catalogue)
  if (lastDoses.some(({ at }) => at !== undefined && !isLocalTime(at, today)))
    wrong('lastDoses', 'noDoseTime')
  const told = askedMoments(draft.tests, catalogue)
    .map((moment) => ({ moment, at: draft.moments[moment]?.trim() ?? '' }))
    .filter(({ at }) => at !== '')
  if (told.some(({ moment, at }) => !isLocalTime(at, moment === 'nextDose' ? NEVER : today)))
    wrong('lastDoses', 'noMomentTime')
  const bornAt = draft.bornAt.trim()
  const lastFeedAt = draft.lastFeedAt.trim()
  if (bornAt !== '' && !isLocalTime(bornAt, today)) wrong('bornAt', 'noBirthTime')
  else if (bornAt !== '' && bornAt.slice(0, 10) !== birthDate) wrong('bornAt', 'bornOtherDay')
  if (lastFeedAt !== '' && !isLocalTime(lastFeedAt, today)) wrong('lastFeedAt', 'noFeedTime')
  else if (lastFeedAt !== '' && bornAt !== '' && lastFeedAt < bornAt)
    wrong('lastFeedAt', 'fedBeforeBirth')
  const open = draft.questions.filter(({ confirmed }) => !confirmed)
  if (open.length > 0) wrong('questions', 'notAnswered', { n: open.length })
  if (errors.length > 0) {
    return faulty(errors.sort((a, b) => byPlaceInForm(a.field, b.field)))
  }

  const { tests, priority, anticoagulant } = draft
  const restrictions = defined({
    left: draft.restrictionLeft || undefined,
    right: draft.restrictionRight || undefined,
  })
  return ok({
    patient: defined({
      fullName: fullNameOf({ familyName, givenNames }, written),
      familyName,
      givenNames: givenNames || undefined,
      birthDate,
      recordNumber,
      sex: draft.sex || undefined,
      weight_kg,
      haematocrit_pct,
    }),
    order: defined({
      orderNumber,
      tests,
      priority,
      provider: provider || undefined,
      providerNumber: providerNumber || undefined,
      orderedAt: orderedAt || undefined,
      ward: ward || undefined,
      visitNumber: visitNumber || undefined,
      bandNumber: bandNumber || undefined,
    }),
    preparation: defined({
      anticoagulant,
      latexAllergy: draft.latexAllergy === '' ? undefined : draft.latexAllergy === 'yes',
      antisepticAllergy: allergiesIn(draft),
      faintedBefore: draft.faintedBefore === '' ? undefined : draft.faintedBefore === 'yes',
      restrictions,
      fasted_h,
      earlierDraws_mL,
      lastDoses: lastDoses.length > 0 ? lastDoses : undefined,
      bornAt: bornAt || undefined,
      feeding: draft.feeding || undefined,
      lastFeedAt: lastFeedAt || undefined,
      transfused: draft.transfused === '' ? undefined : draft.transfused === 'yes',
    }),
  })
}

function allergiesIn({
  antisepticAllergy: first,
  antisepticAllergyToo: second,
}: OrderDraft): AntisepticAllergies | undefined {
  const held = first || undefined
  return second ? withAllergy(held, second) : held
}

/** Every level that is ordered, with its last dose as far as it was told. */
function dosesOf(
  { tests, lastDoses }: OrderDraft,
  catalogue: Pick<Catalogue, 'series' | 'doses'>,
): readonly LastDose[] {
  const ordered = sittingsOf(tests, catalogue).flatMap((sitting) => sitting.tests)
  return [...new Set(ordered)].flatMap((test) => {
    const dose = catalogue.doses?.find((row) => row.tests.includes(test))
    if (!dose) return []
    return [defined({ test, at: lastDoses[test]?.trim() || undefined, least_h: dose.least_h })]
  })
}

/** `2026-11-25`, with a time of day behind it or not. */
const isDayAndMaybeTime = (text: string): boolean => {
  const [day = '', time = ''] = text.split('T')
  return isDay(day) && (time === '' || /^([01]\d|2[0-3]):[0-5]\d$/.test(time))
}

/** What is wrong with the figures typed into a field, in words; `undefined` where nothing is. */
export function draftNumberFault(
  field: NumberField,
  typed: string,
  { order, language }: Pick<Texts, 'order' | 'language'>,
): string | undefined {
  const value = readNumber(field, typed)
  if (typeof value !== 'string') return undefined
  if (value === 'ambiguous') {
    const small = Number(typed.trim().replace(',', '.'))
    return fillText(language.ambiguousNumber, {
      ...{ typed: quoted(typed), small, large: thousandsOf(typed) },
    })
  }
  const values = { field: order.fields[field], typed: quoted(typed), ...NUMBER_RANGES[field] }
  return fillText(order.draft[value], values)
}

/** After every day: what is still to come may be any. */
const NEVER = '9999-12-31'

const isLocalTime = (text: string, today: string): boolean =>
  localTime_ms(text, 0) !== undefined && text.slice(0, 10) <= today

type WordField =
  | 'fullName'
  | 'familyName'
  | 'givenNames'
  | 'recordNumber'
  | 'orderNumber'
  | 'provider'
  | 'providerNumber'
  | 'ward'
  | 'visitNumber'
  | 'bandNumber'
