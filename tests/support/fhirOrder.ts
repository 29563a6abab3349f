import { readOrder } from '../../src/app/order/readOrder.ts'
import type { TestRow } from '../../src/core/catalogue/catalogue.ts'
import { texts } from '../../src/data/en/texts.ts'

const TODAY = '2026-11-25'
const row = (code: string, change: Partial<TestRow>): TestRow => ({
  code,
  name: `Name of ${code}`,
  aliases: [],
  accepts: [],
  least_mL: 1,
  preferred_mL: 1,
  sharing: 'open',
  handling: [],
  fasting: false,
  source: 'invented',
  ...change,
})
// LOINC codes of two usual tests.
const catalogue = {
  tests: [
    row('NA', { name: 'Sodium', loinc: '2951-2', localCode: 'LAB-1' }),
    row('K', { name: 'Potassium', loinc: '2823-3' }),
  ],
}

export type Json = Record<string, unknown>

export const LOINC = 'http://loinc.org'
export const MR = {
  coding: [{ system: 'http://terminology.hl7.org/CodeSystem/v2-0203', code: 'MR' }],
}
/** An invented patient with nothing against them. */
export const patient = (change: Json = {}): Json => ({
  resourceType: 'Patient',
  id: 'p1',
  active: true,
  identifier: [{ use: 'usual', type: MR, value: 'MRN-1' }],
  name: [{ use: 'official', given: ['Alex'], family: 'Invented' }],
  birthDate: '1980-02-29',
  ...change,
})
/** An active order of one test for that patient. */
export const request = (change: Json = {}): Json => ({
  resourceType: 'ServiceRequest',
  status: 'active',
  intent: 'order',
  code: { coding: [{ system: LOINC, code: '2951-2' }] },
  subject: { reference: 'Patient/p1' },
  ...change,
})
export const potassium = { code: { coding: [{ system: LOINC, code: '2823-3' }] } }

/** The text of a bundle of these resources. `entry` is added to every entry of it. */
export function bundle(resources: readonly Json[], change: Json = {}, entry: Json = {}): string {
  return JSON.stringify({
    resourceType: 'Bundle',
    type: 'collection',
    entry: resources.map((resource) => ({
      fullUrl: `https://example.org/fhir/${String(resource['resourceType'])}/${typeof resource['id'] === 'string' ? resource['id'] : 'x'}`,
      resource,
      ...entry,
    })),
    ...change,
  })
}

export const readFhir = (text: string) => readOrder(text, { catalogue, texts, today: TODAY })
/** Why an order is refused; empty when it is taken. */
export const refusals = (text: string): readonly string[] => {
  const reading = readFhir(text)
  return reading.ok ? [] : reading.faults
}
/** What is asked of an order that is taken. */
export const questions = (text: string): readonly string[] => {
  const reading = readFhir(text)
  if (!reading.ok) throw new Error(reading.faults.join(' '))
  return reading.value.questions
}
export const draft = (text: string) => {
  const reading = readFhir(text)
  if (!reading.ok) throw new Error(reading.faults.join(' '))
  return reading.value.draft
}
