import { describe, expect, it } from 'vitest'
import { createTestSearch } from '../../../src/core/catalogue/testSearch.ts'
import { SITE } from '../../support/planning.ts'

const search = createTestSearch(SITE.catalogue)
const find = (typed: string) => search(typed).map(({ test }) => test.code)

describe('finding a test by typing', () => {
  it.each([
    ['cbc', 'cbc'],
    ['Potass', 'potassium'],
    ['INR', 'pt'],
    ['type and screen', 'bloodGroup'],
    ['hs troponin', 'troponin'],
    ['d-dimer', 'dDimer'],
    ['K', 'potassium'],
    // On the way to a spelling that is folded once it is whole.
    ['haemo', 'cbc'],
  ])('%s finds %s first', (typed, code) => {
    expect(find(typed)[0]).toBe(code)
  })

  // Short names as wards and clinics say them: common practice, from memory.
  it.each([
    ['U&E', ['renalPanel', 'bmp']],
    ['u & e', ['renalPanel', 'bmp']],
    ['UE', ['renalPanel', 'bmp']],
    ['LFT', ['liverPanel']],
    ['LFTs', ['liverPanel']],
    ['FBC', ['cbc']],
    ['clotting', ['pt', 'aptt', 'fibrinogen']],
    ['coag', ['pt', 'aptt', 'fibrinogen']],
    ['bloods', ['cbc', 'bmp', 'liverPanel', 'crp']],
    ['haemoglobin', ['cbc', 'cbcDiff']],
    ['hemoglobin', ['cbc', 'cbcDiff']],
    ['TFT', ['tsh', 'freeT4', 'freeT3']],
    ['CRP', ['crp']],
    ['HbA1c', ['hba1c']],
    ['oestradiol', ['estradiol']],
    ['group and save', ['bloodGroup']],
    ['cultures', ['bloodCultureAerobic', 'bloodCultureAnaerobic']],
  ])('%s stands for %j, in that order, before anything else', (typed, codes) => {
    const equal = search(typed).filter(({ fit }) => fit === 'equal')
    expect(equal.map(({ test }) => test.code)).toEqual(codes)
    expect(find(typed).slice(0, codes.length)).toEqual(codes)
  })

  it('finds by the closure word of the tubes, below every name', () => {
    const found = search('lavender')
    expect(found.every(({ fit }) => fit === 'closure')).toBe(true)
    expect(found.map(({ test }) => test.code)).toEqual(
      expect.arrayContaining(['cbc', 'hba1c', 'esr']),
    )
    expect(found[0]).toMatchObject({ test: { code: 'cbc' }, closures: ['lavender'] })
    expect(search('red').findIndex(({ fit }) => fit === 'closure')).toBeGreaterThan(0)
  })

  it('puts nothing within a word on the list for one or two letters', () => {
    expect(find('ue')).not.toContain('hlaTyping')
    expect(search('ssue').at(0)).toMatchObject({ test: { code: 'hlaTyping' }, fit: 'within' })
  })

  it('goes on finding what is being typed, letter by letter', () => {
    for (const name of ['haemoglobin a1c', 'anaerobic', 'aerobic', 'glucose, fasting']) {
      const last = find(name)[0]
      for (let n = 5; n <= name.length; n++)
        expect(find(name.slice(0, n)), name.slice(0, n)).toContain(last)
    }
  })

  it('takes words in any order', () => {
    expect(find('bottle anaerobic')).toEqual(['bloodCultureAnaerobic'])
  })

  it('finds by local code', () => {
    const [first, ...rest] = SITE.catalogue.tests
    const catalogue = { ...SITE.catalogue, tests: [{ ...first!, localCode: 'Z-77' }, ...rest] }
    expect(createTestSearch(catalogue)('z-77')[0]?.test.code).toBe(first!.code)
  })

  it('gives everything for nothing typed, the common ones first, and nothing for nonsense', () => {
    const codes = SITE.catalogue.tests.map(({ code }) => code)
    expect([...find('  ')].sort()).toEqual([...codes].sort())
    const { common } = SITE.catalogue.search!
    expect(find('').slice(0, common.length)).toEqual(common)
    expect(find('').slice(common.length)).toEqual(codes.filter((code) => !common.includes(code)))
    expect(find('qqqq')).toEqual([])
  })
})
