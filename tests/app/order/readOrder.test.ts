import { describe, expect, it } from 'vitest'
import { readOrder } from '../../../src/app/order/readOrder.ts'
import type { TestRow } from '../../../src/core/catalogue/catalogue.ts'
import { writeBundle } from '../../../src/core/fhir/bundle.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { bundle, patient, request } from '../../support/fhirOrder.ts'
import { sampleLog, sampleOpening, sha256 } from '../../support/sampleLog.ts'

const row = (code: string, change: Partial<TestRow> = {}): TestRow => ({
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
const catalogue = {
  tests: [
    row('NA', { aliases: ['Sodium'], loinc: '0000-1' }),
    row('K', { localCode: 'LOC-7' }),
    row('test-citrate'),
    row('test-activatorGel'),
    row('test-edtaK2'),
  ],
}

const site = { catalogue, texts, today: '2026-11-25' }

const CSV = `fullName,birthDate,recordNumber,sex,orderNumber,provider,priority,tests
"Invented, Alex",1980-02-29,MRN-1,female,ORD-1,Dr. Pat Placeholder,urgent,NA;K`

const errorsOf = (text: string): string => {
  const reading = readOrder(text, site)
  return reading.ok ? '' : reading.faults.join(' ')
}

describe('readOrder from CSV', () => {
  it('reads a row', () => {
    expect(readOrder(CSV, site)).toEqual({
      ok: true,
      value: {
        questions: [],
        draft: {
          fullName: 'Invented, Alex',
          familyName: '',
          givenNames: '',
          birthDate: '1980-02-29',
          recordNumber: 'MRN-1',
          sex: 'female',
          orderNumber: 'ORD-1',
          provider: 'Dr. Pat Placeholder',
          priority: 'urgent',
          tests: ['NA', 'K'],
        },
      },
    })
  })

  it('reads family and given name from columns of their own', () => {
    const text =
      'familyName,givenNames,birthDate,recordNumber,tests\nFennimore,Oda Ann,2001-01-31,M1,na'
    expect(readOrder(text, site)).toMatchObject({
      value: {
        draft: { fullName: 'Oda Ann Fennimore', familyName: 'Fennimore', givenNames: 'Oda Ann' },
      },
    })
    expect(errorsOf(text.replace('familyName', 'givenName'))).toMatch(/missing: familyName/)
  })

  it('takes columns in any order and case, a byte order mark, and tests by any of their names', () => {
    const text =
      '\uFEFFTESTS,recordnumber,FullName,birthdate\r\nsodium; LOC-7;na,M1,A B,2001-01-31\r\n'
    expect(readOrder(text, site)).toMatchObject({
      ok: true,
      value: { draft: { fullName: 'A B', priority: 'routine', sex: '', tests: ['NA', 'K'] } },
    })
  })

  it('asks about a test that is asked for twice, under whatever name', () => {
    const reading = readOrder(CSV.replace('NA;K', 'NA;sodium'), site)
    expect(reading).toMatchObject({ value: { draft: { tests: ['NA'] } } })
    expect(reading.ok && reading.value.questions).toEqual([
      '"NA" is asked for twice, by Test 1 and Test 2. It is drawn once. Is that right?',
    ])
  })

  it('shows of many faults the first fifty and how many more there are', () => {
    const many = Array.from({ length: 299 }, (_, i) => `no-${i}`).join(';')
    const reading = readOrder(CSV.replace('NA;K', many), site)
    const faults = reading.ok ? [] : reading.faults
    expect(faults).toHaveLength(51)
    expect(faults.at(-1)).toBe('And 249 more faults.')
  })

  it.each([
    ['an empty file', ' \n', /empty/],
    ['text', 'Dear colleague', /Row 1: columns missing/],
    ['a missing column', CSV.replace('birthDate', 'born'), /columns missing: birthDate/],
    ['a column that stands twice', CSV.replace('sex', 'FULLNAME'), /stand twice: fullName/],
    [
      'a name with a line break',
      CSV.replace('"Invented, Alex"', '"Alex\nConsent: given"'),
      /The name .*U\+000A LINE FEED/,
    ],
    [
      'a number with a direction mark',
      CSV.replace('MRN-1', 'MRN\u202E-1'),
      /The record number holds U\+202E/,
    ],
    ['a formula in a test', CSV.replace('NA;K', '=NA'), /test "=NA" is not/],
    ['an unknown column', CSV.replace('provider', 'doctor'), /not known: "doctor"/],
    ['no order', CSV.split('\n')[0] ?? '', /Row 2: there is no order/],
    ['two orders', `${CSV}\n${CSV.split('\n')[1]}`, /Row 3/],
    ['a cell too many', `${CSV},x`, /Row 2: it has more cells/],
    ['an open quotation mark', CSV.replace('"Invented, Alex"', '"Invented'), /quotation mark/],
    ['a day that is none', CSV.replace('1980-02-29', '1981-02-29'), /1981-02-29.*not a day/],
    ['a day written otherwise', CSV.replace('1980-02-29', '29/02/1980'), /not a day/],
    ['an unknown test', CSV.replace('NA;K', 'NA;ZZ'), /Test 2: test "ZZ" is not in the catalog/],
    ['no test', CSV.replace('NA;K', ''), /names no test/],
    ['an unknown priority', CSV.replace('urgent', 'soon'), /Priority "soon"/],
    ['no record number', CSV.replace('MRN-1', ''), /no record number/],
  ])('refuses %s and says what to mend', (_what, text, message) => {
    expect(errorsOf(text)).toMatch(message)
  })
})

describe('readOrder from FHIR', () => {
  const bundle = writeBundle(sampleLog(), texts, sha256)
  const text = JSON.stringify(bundle)
  const { patient, order } = sampleOpening()

  it('reads back the order of a draw that was exported', () => {
    expect(readOrder(text, site)).toMatchObject({
      ok: true,
      value: {
        draft: {
          fullName: patient.fullName,
          birthDate: patient.birthDate,
          recordNumber: patient.recordNumber,
          sex: 'female',
          orderNumber: order.orderNumber,
          provider: order.provider,
          priority: order.priority,
          tests: order.tests,
        },
      },
    })
  })

  it('puts a name together from its parts, and finds the record number by its type', () => {
    const foreign = {
      resourceType: 'Bundle',
      entry: [
        {
          resource: {
            resourceType: 'Patient',
            identifier: [
              { value: 'other' },
              { type: { coding: [{ code: 'MR' }] }, value: 'MRN-9' },
            ],
            name: [{ given: ['Alex', 'B.'], family: 'Invented' }],
            birthDate: '1980-02-29',
            gender: 'other',
          },
        },
        {
          resource: {
            resourceType: 'ServiceRequest',
            status: 'active',
            intent: 'order',
            code: { text: 'Sodium' },
          },
        },
      ],
    }
    expect(readOrder(JSON.stringify(foreign), site)).toMatchObject({
      ok: true,
      value: {
        draft: {
          ...{ fullName: 'Alex B. Invented', familyName: 'Invented', givenNames: 'Alex B.' },
          ...{ recordNumber: 'MRN-9', sex: '', tests: ['NA'] },
        },
      },
    })
  })

  const without = (type: string): string =>
    JSON.stringify({
      ...bundle,
      entry: bundle.entry.filter(({ resource }) => resource.resourceType !== type),
    })

  it.each([
    ['cut JSON', text.slice(0, -5), /breaks off/],
    ['another resource', '{"resourceType":"Patient"}', /not a FHIR Bundle/],
    ['no patient', without('Patient'), /one Patient and holds 0/],
    ['no request', without('ServiceRequest'), /no ServiceRequest/],
    ['a revoked request', text.replace('"active"', '"revoked"'), /status "revoked"/],
    ['two orders', text.replace('"ORD-77"', '"ORD-78"'), /more than one order/],
    ['a field of the wrong kind', text.replace('"1980-02-29"', '5'), /birthDate/],
    ['an unknown test', text.replaceAll('test-citrate', 'ZZ'), /Request 1: test "ZZ"/],
  ])('refuses %s and says what to mend', (_what, from, message) => {
    expect(errorsOf(from)).toMatch(message)
  })
})

describe('an order of several draws', () => {
  const series = {
    ...{ code: 'TWO', name: 'Two sets', aliases: ['double set'], loinc: '0000-9' },
    recognized: true,
    sittings: [
      { point: 'set 1', tests: ['NA', 'K'] },
      { point: 'set 2', tests: ['NA', 'K'] },
    ],
    source: 'invented',
  }
  const read = (tests: string) => {
    const text = CSV.replace('NA;K', tests)
    const reading = readOrder(text, { ...site, catalogue: { ...catalogue, series: [series] } })
    if (!reading.ok) throw new Error(reading.faults.join(' '))
    return [reading.value.draft.tests, reading.value.questions.length]
  }

  it('keeps what its series wants twice, and asks about what stands once too often', () => {
    expect(read('NA;K;NA;K')).toEqual([['NA', 'K', 'NA', 'K'], 0])
    expect(read('NA;K;NA;K;NA')).toEqual([['NA', 'K', 'NA', 'K'], 1])
    expect(read('NA;NA')).toEqual([['NA'], 1])
  })

  it('comes the same way out of two equal requests of a bundle', () => {
    const asked = ['NA', 'K', 'NA', 'K'].map((code) => request({ code: { coding: [{ code }] } }))
    const text = bundle([patient(), ...asked])
    const reading = readOrder(text, { ...site, catalogue: { ...catalogue, series: [series] } })
    expect(reading.ok && reading.value.draft.tests).toEqual(['NA', 'K', 'NA', 'K'])
  })

  it('is found by the name and the codes of the series', () => {
    expect(read('double set')).toEqual([['TWO'], 0])
    expect(read('TWO;TWO')).toEqual([['TWO'], 1])
  })
})
