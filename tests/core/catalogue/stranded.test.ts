import { describe, expect, it } from 'vitest'
import { stranded } from '../../../src/core/catalogue/stranded.ts'
import { shippedSite } from '../../support/site.ts'

// What must hold is ours: nothing outside says what may be taken out of a catalog (common practice, no source).
const { catalogue } = shippedSite
const [series] = catalogue.series ?? []

const without = (codes: readonly string[]) => ({
  tests: catalogue.tests.filter(({ code }) => !codes.includes(code)),
  tubes: catalogue.tubes.filter(({ code }) => !codes.includes(code)),
})

describe('what a change would strand', () => {
  it('is nothing where nothing is gone', () => {
    expect(stranded(catalogue, catalogue, shippedSite.stock)).toEqual([])
  })

  it('names the series of a test that is gone', () => {
    const used = series?.sittings[0]?.tests[0] ?? ''
    const found = stranded(catalogue, without([used]), [])
    expect(found).toContainEqual({ what: 'series', name: series?.name, missing: [used] })
  })

  it('finds a test under another code gone under its old one', () => {
    const used = series?.sittings[0]?.tests[0] ?? ''
    const tests = catalogue.tests.map((test) =>
      test.code === used ? { ...test, code: 'other' } : test,
    )
    expect(stranded(catalogue, { ...catalogue, tests }, []).length).toBeGreaterThan(0)
  })

  it('names each test that no tube is left for, and the lots that are on hand of it', () => {
    const citrate = catalogue.tubes.filter(({ additive }) => additive === 'citrate')
    const gone = citrate.map(({ code }) => code)
    const found = stranded(catalogue, without(gone), shippedSite.stock)
    const only = catalogue.tests.filter(({ accepts }) =>
      accepts.every(({ additive }) => additive === 'citrate'),
    )
    expect(only.length).toBeGreaterThan(0)
    expect(found.filter(({ what }) => what === 'test').map(({ name }) => name)).toEqual(
      expect.arrayContaining(only.map(({ name }) => name)),
    )
    expect(found.filter(({ what }) => what === 'lot').length).toBe(
      shippedSite.stock.filter(({ tubeCode }) => gone.includes(tubeCode)).length,
    )
  })

  it('does not hold against a change what was missing before it', () => {
    const before = { ...catalogue, tubes: [] }
    expect(stranded(before, before, [])).toEqual([])
  })
})
