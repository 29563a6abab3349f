import type { Order, Patient, Preparation } from '../../core/order/order.ts'
import type { DraftError, OrderDraft } from './orderDraft.ts'

/** The form's text as values, or what cannot be used of it. */
export type DraftReading =
  | {
      readonly ok: true
      readonly patient: Patient
      readonly order: Order
      readonly preparation: Preparation
    }
  | { readonly ok: false; readonly errors: readonly DraftError[] }

/** Reads the new-draw form. `today` is `YYYY-MM-DD`; nothing is guessed and nothing absurd is let through. */
export function readDraft(draft: OrderDraft, today: string): DraftReading {
  const errors: DraftError[] = []
  const wrong = (field: keyof OrderDraft, text: string): void => void errors.push({ field, text })
  const required = (field: 'fullName' | 'recordNumber' | 'orderNumber', label: string): string => {
    const text = draft[field].trim()
    if (!text) wrong(field, `${label} is missing.`)
    if (text.length > 120) wrong(field, `${label} is longer than 120 characters.`)
    return text
  }
  const number = (field: NumberField): number | undefined => {
    const text = draft[field].trim().replace(',', '.')
    if (!text) return undefined
    const { label, least, most } = NUMBERS[field]
    const value = Number(text)
    if (!/^\d+(\.\d+)?$/.test(text) || value < least || value > most) {
      wrong(field, `${label} must be a number from ${least} to ${most}.`)
      return undefined
    }
    return value
  }

  const fullName = required('fullName', 'The name')
  const recordNumber = required('recordNumber', 'The record number')
  const orderNumber = required('orderNumber', 'The order number')
  const birthDate = draft.birthDate.trim()
  if (!isDate(birthDate)) wrong('birthDate', 'The birth date must be a day such as 1980-05-31.')
  else if (birthDate > today) wrong('birthDate', 'The birth date lies in the future.')
  else if (birthDate < `${Number(today.slice(0, 4)) - 125}`)
    wrong('birthDate', 'The birth date is more than 125 years ago.')
  if (draft.tests.length === 0) wrong('tests', 'No test is picked.')
  const weight_kg = number('weight_kg')
  const haematocrit_pct = number('haematocrit_pct')
  const fasted_h = number('fasted_h')
  const earlierDraws_mL = number('earlierDraws_mL')
  if (errors.length > 0) return { ok: false, errors }

  return {
    ok: true,
    patient: {
      fullName,
      birthDate,
      recordNumber,
      ...(draft.sex ? { sex: draft.sex } : {}),
      ...given('weight_kg', weight_kg),
      ...given('haematocrit_pct', haematocrit_pct),
    },
    order: {
      orderNumber,
      tests: draft.tests,
      priority: draft.priority,
      ...(draft.provider.trim() ? { provider: draft.provider.trim() } : {}),
    },
    preparation: {
      anticoagulant: draft.anticoagulant,
      latexAllergy: draft.latexAllergy,
      faintedBefore: draft.faintedBefore,
      restrictions: {
        ...(draft.restrictionLeft ? { left: draft.restrictionLeft } : {}),
        ...(draft.restrictionRight ? { right: draft.restrictionRight } : {}),
      },
      ...given('fasted_h', fasted_h),
      ...given('earlierDraws_mL', earlierDraws_mL),
    },
  }
}

type NumberField = 'weight_kg' | 'haematocrit_pct' | 'fasted_h' | 'earlierDraws_mL'

/** Outside these a typing slip is far likelier than a true value. */
const NUMBERS: Readonly<Record<NumberField, { label: string; least: number; most: number }>> = {
  weight_kg: { label: 'The weight in kg', least: 0.3, most: 400 },
  haematocrit_pct: { label: 'The hematocrit in percent', least: 5, most: 80 },
  fasted_h: { label: 'The hours since food', least: 0, most: 72 },
  earlierDraws_mL: { label: 'The blood taken before in mL', least: 0, most: 5000 },
}

function given<K extends string>(key: K, value: number | undefined): Partial<Record<K, number>> {
  return value === undefined ? {} : ({ [key]: value } as Record<K, number>)
}

/** A day that exists, `YYYY-MM-DD`. */
export function isDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false
  const day = new Date(`${text}T00:00:00Z`)
  return !Number.isNaN(day.getTime()) && day.toISOString().slice(0, 10) === text
}
