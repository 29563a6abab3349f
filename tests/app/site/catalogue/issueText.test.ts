import { describe, expect, it } from 'vitest'
import { readCatalogueJson, readOrderFile } from '../../../../src/app/site/catalogue/readJson.ts'
import { catalogueJson } from '../../../../src/app/site/catalogue/writeCatalogue.ts'
import { texts } from '../../../../src/data/en/texts.ts'
import { planInput, SITE } from '../../../support/planning.ts'

const { order, patient, preparation, needleSet } = planInput(['cbc'])
const ORDER = { order, patient, preparation, needleSet }
const [tube] = SITE.catalogue.tubes

const firstOf = (value: unknown) => {
  const reading = readOrderFile(JSON.stringify(value), texts)
  return reading.ok ? undefined : reading.faults[0]
}
const firstOfTube = (change: object) => {
  const text = catalogueJson({
    ...SITE.catalogue,
    // A catalog without tests is refused as a whole.
    tests: SITE.catalogue.tests.slice(0, 1),
    tubes: [{ ...tube!, ...change }],
  })
  const reading = readCatalogueJson(text, texts)
  return reading.ok ? undefined : reading.faults[0]?.text
}

describe('what does not fit a JSON file is said in our own words', () => {
  it.each([
    ['a missing part', { ...ORDER, patient: undefined }, 'patient', 'It is missing.'],
    ['a word in its place', 'x', '', 'It must be an object, not "x".'],
    [
      'an unknown field',
      { ...ORDER, order: { ...order, tsets: [] } },
      'order.tsets',
      'It is not known here.',
    ],
    [
      'a word for a number',
      { ...ORDER, patient: { ...patient, weight_kg: 'heavy' } },
      'patient.weight_kg',
      'It must be a number, not "heavy".',
    ],
    [
      'a gauge nobody makes',
      { ...ORDER, needleSet: { ...needleSet, gauge: 7 } },
      'needleSet.gauge',
      /^It must be one of .*21.*, not 7\.$/,
    ],
    [
      'a date of another form',
      { ...ORDER, patient: { ...patient, birthDate: '5.5.1980' } },
      'patient.birthDate',
      'Write the date as 2027-12-31.',
    ],
    [
      'hours below 0',
      { ...ORDER, preparation: { ...preparation, fasted_h: -1 } },
      'preparation.fasted_h',
      'Must not be below 0.',
    ],
    [
      'a text without an end',
      { ...ORDER, order: { ...order, orderNumber: 'x'.repeat(3000) } },
      'order.orderNumber',
      'It is too long: 200 at most.',
    ],
    [
      'an empty test code',
      { ...ORDER, order: { ...order, tests: [''] } },
      'order.tests.0',
      'It is empty.',
    ],
  ])('%s', (_what, value, place, text) => {
    const fault = firstOf(value)
    expect(fault?.place).toBe(place)
    expect(fault?.text).toMatch(text)
  })

  it('also in a table of the catalog', () => {
    expect(firstOfTube({ nominal_mL: 0 })).toBe('Must be more than 0.')
    expect(firstOfTube({ additive: 'honey' })).toMatch(/^It must be one of .*, not "honey"\.$/)
    expect(firstOfTube({})).toBeUndefined()
  })
})
