import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { siteCatalogue } from '../../src/app/site/catalogue/siteCatalogue.ts'
import type { StockTube, TestRow } from '../../src/core/catalogue/catalogue.ts'
import type { Patient } from '../../src/core/order/order.ts'
import type { PlanInput } from '../../src/core/plan/planInput.ts'
import { texts } from '../../src/data/en/texts.ts'
import type { Policy } from '../../src/core/policy/policy.ts'

const data = (name: string): string =>
  readFileSync(join(import.meta.dirname, '../../src/data', name), 'utf8')

/** The starter catalogue as shipped. */
export const SITE = siteCatalogue(
  {
    tests: data('catalogue/tests.csv'),
    tubes: data('catalogue/tubes.csv'),
    stock: data('catalogue/stock.csv'),
    norms: data('catalogue/norms.json'),
    preferences: data('catalogue/preferences.json'),
    series: data('catalogue/series.json'),
    search: data('catalogue/search.json'),
    bloodLimits: data('catalogue/bloodLimits.json'),
    laboratories: data('catalogue/laboratories.json'),
  },
  texts,
)

export const POLICY = JSON.parse(data('policy.json')) as Policy

/** An invented adult with a known haematocrit. */
export const ADULT: Patient = {
  fullName: 'Invented Adult',
  birthDate: '1980-05-05',
  recordNumber: 'X-1',
  sex: 'female',
  weight_kg: 70,
  haematocrit_pct: 40,
}

/** With tubes that were counted. */
type StockedInput = PlanInput & { readonly stock: readonly StockTube[] }

/** A planner input with the shipped data, a straight 21 G needle and nothing remarkable. */
export function planInput(tests: readonly string[], more: Partial<PlanInput> = {}): StockedInput {
  return {
    order: { orderNumber: 'O-1', tests, priority: 'routine' },
    patient: ADULT,
    preparation: {
      fasted_h: 12,
      anticoagulant: 'none',
      latexAllergy: false,
      restrictions: {},
      faintedBefore: false,
    },
    needleSet: { kind: 'straight', gauge: 21, needle_mm: 25, tubing_mm: 0, tubingBore_mm: 1 },
    ...SITE,
    policy: POLICY,
    texts,
    today: '2026-11-25',
    ...more,
    stock: more.stock ?? SITE.stock,
  }
}

export const WINGED = {
  kind: 'winged',
  gauge: 21,
  needle_mm: 19,
  tubing_mm: 305,
  tubingBore_mm: 1.6,
} as const

/** The shipped site with other tests. */
export function withTests(tests: readonly TestRow[]): Partial<PlanInput> {
  return { catalogue: { ...SITE.catalogue, tests } }
}

/** An invented test on serum from a gel tube. */
export function testRow(code: string, more: Partial<TestRow> = {}): TestRow {
  return {
    code,
    name: code,
    aliases: [],
    accepts: [{ kind: 'serum', additive: 'activatorGel' }],
    least_mL: 0.1,
    preferred_mL: 0.2,
    sharing: 'open',
    handling: [],
    fasting: false,
    source: 'invented',
    ...more,
  }
}
