import { readFileSync } from 'node:fs'
import Ajv from 'ajv'
import { describe, expect, it } from 'vitest'
import { catalogueJson } from '../../../../src/app/site/catalogue/writeCatalogue.ts'
import { SITE } from '../../../support/planning.ts'

const json = (path: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../../../src/data/${path}`, import.meta.url), 'utf8'))

describe('the published schemas', () => {
  it.each([
    ['norms', () => json('catalogue/norms.json')],
    ['bloodLimits', () => json('catalogue/bloodLimits.json')],
    ['catalogue', () => JSON.parse(catalogueJson(SITE.catalogue)) as unknown],
  ])(
    '%s: an independent validator (Ajv) accepts the shipped data and refuses a changed one',
    (name, data) => {
      const check = new Ajv({ strict: false }).compile(json(`schema/${name}.schema.json`) as object)
      expect(check(data()), JSON.stringify(check.errors)).toBe(true)
      expect(check({ ...(data() as object), extra: 1 })).toBe(false)
      expect(check({})).toBe(false)
    },
  )
})
