import type { Catalogue } from '../../core/catalogue/catalogue.ts'
import type { OrderDraft } from './orderDraft.ts'
import { bundleFields } from './bundleFields.ts'
import { csvFields } from './csvFields.ts'
import type { OrderFields } from './orderFields.ts'

export type OrderReading =
  | {
      readonly ok: true
      readonly draft: Pick<OrderDraft, keyof OrderFields>
    }
  | { readonly ok: false; readonly errors: readonly string[] }

/** One order is a few kilobytes; what is larger is something else. */
const MOST_CHARACTERS = 1_000_000

/**
 * Reads an order from the text of a FHIR R4 Bundle (JSON) or of a CSV file with one row. It only reads: with any error
 * the whole order is refused.
 * @param catalogue tests are found in it by code, local code, LOINC code, name or other name.
 */
export function readOrder(text: string, catalogue: Pick<Catalogue, 'tests'>): OrderReading {
  const trimmed = text.replace(/^\uFEFF/, '').trim()
  if (trimmed === '') return { ok: false, errors: ['The file is empty.'] }
  if (trimmed.length > MOST_CHARACTERS) {
    return { ok: false, errors: ['The file is too large for one order.'] }
  }
  const reading = trimmed.startsWith('{') ? bundleFields(trimmed) : csvFields(trimmed)
  if (!reading.ok) return reading
  const { fields } = reading
  const found = fields.tests.map((test) => findByAnyName(test, catalogue))
  const priority = PRIORITIES.find((known) => known === fields.priority.toLowerCase())
  const sex = SEXES.find((known) => known === fields.sex.toLowerCase())
  const errors = [
    ...(fields.fullName ? [] : ['The patient has no name.']),
    ...birthDateErrors(fields.birthDate),
    ...(fields.recordNumber ? [] : ['The patient has no record number.']),
    ...(priority ? [] : [`Priority "${fields.priority}" is not one of ${PRIORITIES.join(', ')}.`]),
    ...(fields.tests.length > 0 ? [] : ['The order names no test.']),
    ...fields.tests
      .filter((_test, index) => found[index] === undefined)
      .map((test) => `Test "${test}" is not in the catalogue.`),
  ]
  if (errors.length > 0 || !priority) return { ok: false, errors }
  const tests = [...new Set(found.flatMap((test) => (test ? [test] : [])))]
  return { ok: true, draft: { ...fields, sex: sex ?? '', priority, tests } }
}

const PRIORITIES = ['routine', 'urgent', 'asap', 'stat'] as const
/** What a volume limit can be worked out for; anything else is left for a person to answer. */
const SEXES = ['female', 'male'] as const

function findByAnyName(wanted: string, { tests }: Pick<Catalogue, 'tests'>): string | undefined {
  const same = (name: string | undefined): boolean => name?.toLowerCase() === wanted.toLowerCase()
  const found =
    tests.find(({ code }) => same(code)) ??
    tests.find(({ localCode, loinc }) => same(localCode) || same(loinc)) ??
    tests.find(({ name, aliases }) => same(name) || aliases.some(same))
  return found?.code
}

function birthDateErrors(birthDate: string): string[] {
  if (birthDate === '') return ['The patient has no birth date.']
  const parsed = /^\d{4}-\d{2}-\d{2}$/.test(birthDate) ? new Date(`${birthDate}T00:00:00Z`) : null
  const real =
    parsed && !Number.isNaN(parsed.getTime()) && parsed.toISOString().startsWith(birthDate)
  return real ? [] : [`Birth date "${birthDate}" is not a day written as YYYY-MM-DD.`]
}
