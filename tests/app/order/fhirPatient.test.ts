import { describe, expect, it } from 'vitest'
import { bundle, draft, MR, patient, questions, refusals, request, type Json } from '../../support/fhirOrder.ts' // prettier-ignore

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

  it('takes family and given names from the name that is chosen', () => {
    const old = { use: 'old', family: 'Former', given: ['Alex'] }
    const now = {
      use: 'official',
      text: 'INVENTED, Alex B.',
      family: 'Invented',
      given: ['Alex', 'B.'],
    }
    expect(draft(named(old, now))).toMatchObject({
      fullName: 'INVENTED, Alex B.',
      familyName: 'Invented',
      givenNames: 'Alex B.',
    })
    expect(draft(named({ text: 'Alex Invented' }))).toMatchObject({
      familyName: '',
      givenNames: '',
    })
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
