import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { keptCatalogue } from '../../../../src/app/site/catalogue/keptCatalogue.ts'
import { siteCatalogue } from '../../../../src/app/site/catalogue/siteCatalogue.ts'
import { catalogueJson } from '../../../../src/app/site/catalogue/writeCatalogue.ts'
import { texts } from '../../../../src/data/en/texts.ts'
import type { SiteData } from '../../../../src/app/site/siteData.ts'

const text = (name: string): string => readFileSync(`src/data/catalogue/${name}`, 'utf8')
const files = {
  tests: text('tests.csv'),
  tubes: text('tubes.csv'),
  stock: text('stock.csv'),
  norms: text('norms.json'),
  preferences: text('preferences.json'),
  series: text('series.json'),
  search: text('search.json'),
  bloodLimits: text('bloodLimits.json'),
  laboratories: text('laboratories.json'),
}
const shipped = { ...siteCatalogue(files, texts), texts } as SiteData

it('uses the shipped catalogue where none was kept', () => {
  expect(keptCatalogue(shipped, undefined)).toEqual({ value: shipped, faults: [] })
})

it('uses the kept one, as it was accepted', () => {
  const fewer = { ...shipped.catalogue, tests: shipped.catalogue.tests.slice(0, 7) }
  const { value: site, faults } = keptCatalogue(shipped, catalogueJson(fewer))
  expect(site.catalogue.tests).toEqual(fewer.tests)
  expect(faults).toEqual([])
})

it.each(['{', '{"tests": 3}', 'nonsense'])(
  'says so and goes on with the shipped one when it does not read: %s',
  (json) => {
    const { value: site, faults } = keptCatalogue(shipped, json)
    expect(site).toBe(shipped)
    expect(faults.join()).toContain('shipped one is in use')
  },
)
