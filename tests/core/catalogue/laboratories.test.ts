import { describe, expect, it } from 'vitest'
import {
  byLaboratory,
  laboratoriesFor,
  laboratoryFaults,
  laboratoryOf,
  type Laboratory,
} from '../../../src/core/catalogue/laboratories.ts'
import {
  keptLaboratories,
  laboratoriesJson,
} from '../../../src/app/site/catalogue/keptLaboratories.ts'
import { readLaboratories } from '../../../src/app/site/catalogue/readJson.ts'
import { shippedSite } from '../../support/site.ts'

// How a site gives its tests to laboratories is its own: common practice, no source.
const { laboratories, texts, catalogue } = shippedSite
const [main, reference] = laboratories as readonly [Laboratory, Laboratory]
const { tests } = catalogue

const faults = (list: readonly Laboratory[]) =>
  laboratoryFaults(list, tests, texts.catalogue).map(({ row, text }) => `${row}: ${text}`)

describe('laboratories', () => {
  it('shipped ones are invented and say so, and take every test of the catalog', () => {
    expect(faults(laboratories)).toEqual([])
    expect(laboratories.every(({ name }) => name.includes('(invented)'))).toBe(true)
    for (const { code } of tests) expect(laboratoryOf(laboratories, code), code).toBeDefined()
  })

  it('a test goes to the laboratory that names it, every other one to the one that takes the rest', () => {
    expect(laboratoryOf(laboratories, 'renin')?.id).toBe('reference')
    expect(laboratoryOf(laboratories, 'cbc')?.id).toBe('main')
  })

  it('an order falls into its parts, each test in exactly one', () => {
    const parts = byLaboratory(laboratories, ['cbc', 'renin', 'bmp'])
    expect(parts.map(({ laboratory, tests: each }) => [laboratory?.id, each])).toEqual([
      ['main', ['cbc', 'bmp']],
      ['reference', ['renin']],
    ])
  })

  it('tests that nobody takes are told apart and not lost', () => {
    expect(byLaboratory([reference], ['cbc'])).toEqual([{ laboratory: undefined, tests: ['cbc'] }])
  })

  it('are refused with a test twice, an unknown test, no rest or two, and times out of order', () => {
    const twice = { ...reference, id: 'third', name: 'Third', tests: ['renin', 'nothing'] }
    expect(faults([main, reference, twice])).toEqual([
      '3: renin already goes to Reference laboratory (invented).',
      expect.stringContaining('3: '),
    ])
    expect(faults([reference])[0]).toContain('not 0')
    expect(faults([main, { ...main, id: 'other' }])[0]).toContain('not 2')
    expect(faults([{ ...main, pickUps: ['16:00', '09:00'] }])[0]).toContain('1: ')
    expect(faults([{ ...main, pickUps: ['24:00'] }])[0]).toContain('24:00')
    expect(faults([main, { ...reference, id: 'main' }])[0]).toContain('2: ')
  })

  it('lose tests that a catalog no longer has', () => {
    const left = laboratoriesFor(laboratories, tests.slice(0, 3))
    expect(left[1]?.tests).toEqual([])
    expect(left[0]?.tests).toBe('rest')
  })

  it('kept on a device read back as they were accepted, and broken ones give way to the shipped', () => {
    const own = [{ ...main, most_h: 2 }, reference]
    expect(keptLaboratories(shippedSite, laboratoriesJson(own), tests)).toEqual({
      value: own,
      faults: [],
    })
    const broken = keptLaboratories(shippedSite, '{"version":"1"}', tests)
    expect(broken.value).toEqual(laboratories)
    expect(broken.faults[0]).toContain('cannot be read')
  })

  it('a file that lies is refused whole, with the place', () => {
    const bad = laboratoriesJson([
      { ...main, carriedAt: { ...main.carriedAt, serum: 'hot' as 'warm' } },
    ])
    const reading = readLaboratories(bad, tests, texts)
    expect(reading.ok).toBe(false)
    if (!reading.ok) expect(reading.faults[0]?.place).toBe('laboratories.0.carriedAt.serum')
  })
})
