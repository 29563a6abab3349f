import { readNumber } from '../../../src/app/order/draftNumbers.ts'
import { describe, expect, it } from 'vitest'
import { blankDraft } from '../../../src/app/order/planInput.ts'
import { draftNumberFault, readDraft } from '../../../src/app/order/readDraft.ts'
import type { OrderDraft } from '../../../src/app/order/orderDraft.ts'
import { isDay } from '../../../src/core/time/format.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { shippedSite } from '../../support/site.ts'

const draft: OrderDraft = {
  invented: true,
  fullName: '',
  familyName: 'Fennimore',
  givenNames: 'Oda',
  oneName: false,
  birthDate: '1971-02-28',
  recordNumber: 'R-1',
  sex: 'female',
  weight_kg: '',
  haematocrit_pct: '',
  orderNumber: 'O-1',
  provider: '',
  providerNumber: '',
  orderedAt: '',
  ward: '',
  visitNumber: '',
  bandNumber: '',
  priority: 'routine',
  lastDoses: {},
  moments: {},
  tests: ['NA'],
  fasted_h: '',
  anticoagulant: 'none',
  latexAllergy: 'no',
  antisepticAllergy: 'none',
  antisepticAllergyToo: '',
  restrictionLeft: '',
  restrictionRight: 'fistula',
  faintedBefore: 'no',
  earlierDraws_mL: '',
  questions: [],
  served: undefined,
  bornAt: '',
  lastFeedAt: '',
  feeding: '',
  transfused: '',
  patientLanguage: '',
  collecting: 'venous',
  needleSet: { kind: 'winged', gauge: 21, needle_mm: 19, tubing_mm: 305, tubingBore_mm: 0.9 },
}
const read = (change: Partial<OrderDraft>) =>
  readDraft({ ...draft, ...change }, '2026-11-25', texts)
const fields = (change: Partial<OrderDraft>): string[] => {
  const reading = read(change)
  return reading.ok ? [] : reading.faults.map(({ field }) => field)
}

describe('readDraft', () => {
  it('gives the values of a form that can be read', () => {
    const reading = read({ weight_kg: '61,5', fasted_h: '10' })
    expect(reading).toMatchObject({
      ok: true,
      value: {
        patient: { weight_kg: 61.5 },
        preparation: { fasted_h: 10, restrictions: { right: 'fistula' } },
      },
    })
  })

  it('does not invent an answer that was not given', () => {
    const reading = read({})
    expect(reading.ok && 'fasted_h' in reading.value.preparation).toBe(false)
    expect(reading.ok && 'weight_kg' in reading.value.patient).toBe(false)
  })

  it.each(['latexAllergy', 'antisepticAllergy', 'faintedBefore'] as const)(
    'keeps %s apart as yes, no and not asked',
    (field) => {
      const yes = field === 'antisepticAllergy' ? 'iodine' : 'yes'
      const no = field === 'antisepticAllergy' ? 'none' : 'no'
      const kept = (answer: string): unknown => {
        const reading = read({ [field]: answer })
        return reading.ok ? reading.value.preparation[field] : reading.faults
      }
      expect(kept('')).toBeUndefined()
      expect([kept(no), kept(yes)]).toEqual(
        field === 'antisepticAllergy' ? ['none', 'iodine'] : [false, true],
      )
    },
  )

  it('takes nothing as answered in a blank form', () => {
    const { anticoagulant, latexAllergy, antisepticAllergy, faintedBefore } =
      blankDraft(shippedSite)
    expect({ anticoagulant, latexAllergy, antisepticAllergy, faintedBefore }).toEqual({
      anticoagulant: 'notAsked',
      latexAllergy: '',
      antisepticAllergy: '',
      faintedBefore: '',
    })
  })

  it.each([
    ['familyName', { familyName: '  ' }],
    ['givenNames', { givenNames: '' }],
    ['recordNumber', { recordNumber: '' }],
    ['orderNumber', { orderNumber: '' }],
    ['birthDate', { birthDate: '28.02.1971' }],
    ['birthDate', { birthDate: '1971-02-30' }],
    ['birthDate', { birthDate: '2026-11-26' }],
    ['birthDate', { birthDate: '1890-01-01' }],
    ['tests', { tests: [] }],
    ['weight_kg', { weight_kg: '-4' }],
    ['weight_kg', { weight_kg: '1e3' }],
    ['weight_kg', { weight_kg: '4000' }],
    ['haematocrit_pct', { haematocrit_pct: '0.4' }],
    ['fasted_h', { fasted_h: 'since noon' }],
    ['earlierDraws_mL', { earlierDraws_mL: '99999' }],
  ] as [string, Partial<OrderDraft>][])('names %s when it cannot be used: %o', (field, change) => {
    expect(fields(change)).toEqual([field])
  })

  it.each([
    [
      'familyName',
      { familyName: 'Fenni\u202Emore' },
      /^The family name holds U\+202E RIGHT-TO-LEFT OVERRIDE/,
    ],
    ['givenNames', { givenNames: '\u200B' }, /U\+200B ZERO WIDTH SPACE/],
    ['recordNumber', { recordNumber: 'R\u0000-1' }, /^The record number holds .*U\+0000 NULL/],
    ['orderNumber', { orderNumber: 'O\u2028-1' }, /^The order number .*U\+2028 LINE SEPARATOR/],
    ['provider', { provider: 'Dr.\nConsent: given' }, /^The name of who ordered .*U\+000A/],
  ])('refuses what nobody sees in %s and names it', (field, change, sentence) => {
    const reading = read(change)
    expect(reading.ok ? [] : reading.faults).toEqual([
      { field, text: expect.stringMatching(sentence) as string },
    ])
  })

  it('stores one form of a name, however it was typed (NFC, UAX #15)', () => {
    const reading = read({ givenNames: ' Zoe\u0308  Ann ' })
    expect(reading.ok && reading.value.patient).toMatchObject({
      fullName: 'Zo\u00EB Ann Fennimore',
      familyName: 'Fennimore',
      givenNames: 'Zo\u00EB Ann',
    })
  })

  it.each([
    ['Oda Fennimore', 'Oda Fennimore'],
    // Some write the family name first; some add what is no part of either.
    ['FENNIMORE, Oda', 'FENNIMORE, Oda'],
    ['Oda Fennimore Jr.', 'Oda Fennimore Jr.'],
    ['', 'Oda Fennimore'],
  ])('asks the patient for the name as the order writes it: %s', (fullName, asked) => {
    const reading = read({ fullName })
    expect(reading.ok && reading.value.patient.fullName).toBe(asked)
  })

  it('takes no family and given name that are not those of the order', () => {
    expect(fields({ fullName: 'Berta Second' })).toEqual(['fullName'])
    expect(fields({ fullName: 'Oda Fennimor' })).toEqual(['fullName'])
  })

  it('never cuts a name that came as one text: its parts are asked for', () => {
    expect(fields({ fullName: 'Oda Fennimore', familyName: '', givenNames: '' })).toEqual([
      'familyName',
      'givenNames',
    ])
  })

  it('takes a person with one name, once somebody says that it is one', () => {
    const reading = read({ familyName: 'Oda', givenNames: '', oneName: true })
    expect(reading.ok && reading.value.patient).toMatchObject({ fullName: 'Oda' })
    expect(reading.ok && 'givenNames' in reading.value.patient).toBe(false)
  })

  it('plans nothing while a question of the order file is open', () => {
    const question = { text: 'Is it for this patient?', confirmed: false }
    expect(fields({ questions: [question] })).toEqual(['questions'])
    expect(fields({ questions: [{ ...question, confirmed: true }] })).toEqual([])
  })

  it('names every field that is wrong, not only the first', () => {
    expect(fields({ familyName: '', birthDate: '', tests: [] })).toEqual([
      'familyName',
      'birthDate',
      'tests',
    ])
  })
})

describe('isDay', () => {
  it.each([
    ['2024-02-29', true],
    ['2023-02-29', false],
    ['2000-02-29', true],
    ['1900-02-29', false],
    ['2026-13-01', false],
    ['26-01-01', false],
  ])('%s: %s (Gregorian leap years, ISO 8601)', (text, expected) =>
    expect(isDay(text)).toBe(expected),
  )
})

describe('what goes with a newborn card', () => {
  const baby = { ...draft, birthDate: '2026-11-24' }

  it('is read as told, and left out where nobody was asked', () => {
    const told = { ...baby, bornAt: '2026-11-24T08:15', lastFeedAt: '2026-11-25T05:00', feeding: 'breast', transfused: 'no' } as const // prettier-ignore
    const reading = readDraft(told, '2026-11-25', texts)
    expect(reading.ok && reading.value.preparation).toMatchObject({ bornAt: '2026-11-24T08:15', lastFeedAt: '2026-11-25T05:00', feeding: 'breast', transfused: false }) // prettier-ignore
    const blank = readDraft(baby, '2026-11-25', texts)
    expect(blank.ok && Object.keys(blank.value.preparation)).not.toContain('bornAt')
  })

  it.each([
    [{ bornAt: '2026-11-23T08:15' }, 'bornAt', /another day/],
    [{ bornAt: '2026-11-24' }, 'bornAt', /day and a time/],
    [{ bornAt: '2026-11-24T08:15', lastFeedAt: '2026-11-24T07:00' }, 'lastFeedAt', /before the birth/], // prettier-ignore
    [{ lastFeedAt: '2026-11-24T25:00' }, 'lastFeedAt', /day and a time/],
  ] as const)('is refused where it cannot be so: %j', (change, field, text) => {
    const reading = readDraft({ ...baby, ...change }, '2026-11-25', texts)
    expect(reading.ok ? [] : reading.faults).toEqual([
      { field, text: expect.stringMatching(text) as string },
    ])
  })
})

describe('a number that is typed with a sign', () => {
  it.each([
    ['weight_kg', '61,5', 61.5],
    ['weight_kg', '61.5', 61.5],
    // A newborn; as thousands it would weigh tons.
    ['weight_kg', '3,450', 3.45],
    ['earlierDraws_mL', '1250', 1250],
    ['earlierDraws_mL', '12,5', 12.5],
    ['earlierDraws_mL', '1.250', 'ambiguous'],
    ['earlierDraws_mL', '1,250', 'ambiguous'],
    ['earlierDraws_mL', '1.250,5', 'notANumber'],
  ] as const)('%s "%s" is read as %s', (field, typed, value) => {
    expect(readNumber(field, typed)).toBe(value)
  })

  it('is told both ways where it can be read both ways', () => {
    expect(draftNumberFault('earlierDraws_mL', '1.250', texts)).toBe(
      '"1.250" can be read as 1.25 or as 1250. Type the one that is meant.',
    )
  })
})
