import { describe, expect, it } from 'vitest'
import { findTests } from '../../../src/core/catalogue/findTests.ts'
import { SITE } from '../../support/planning.ts'

const find = (typed: string) => findTests(SITE.catalogue, typed).map(({ code }) => code)

describe('finding a test by typing', () => {
  it.each([
    ['cbc', 'cbc'],
    ['Potass', 'potassium'],
    ['INR', 'pt'],
    ['type and screen', 'bloodGroup'],
    ['hs troponin', 'troponin'],
    ['d-dimer', 'dDimer'],
    ['K', 'potassium'],
  ])('%s finds %s first', (typed, code) => {
    expect(find(typed)[0]).toBe(code)
  })

  it('takes words in any order', () => {
    expect(find('bottle anaerobic')).toEqual(['bloodCultureAnaerobic'])
  })

  it('finds by local code', () => {
    const [first, ...rest] = SITE.catalogue.tests
    const catalogue = { ...SITE.catalogue, tests: [{ ...first!, localCode: 'Z-77' }, ...rest] }
    expect(findTests(catalogue, 'z-77')[0]?.code).toBe(first!.code)
  })

  it('gives everything for nothing typed, nothing for nonsense, and at most as many as asked for', () => {
    expect(find('  ')).toEqual(SITE.catalogue.tests.map(({ code }) => code))
    expect(find('qqqq')).toEqual([])
    expect(findTests(SITE.catalogue, 'a', 3)).toHaveLength(3)
  })
})
