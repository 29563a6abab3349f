import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { siteCatalogue } from '../../../src/app/site/catalogue/siteCatalogue.ts'
import { coverageLines } from '../../../src/app/view/coverageLines.ts'
import { planAgain } from '../../../src/app/draw/planAgain.ts'
import type { SiteData } from '../../../src/app/site/siteData.ts'
import { planDraw } from '../../../src/core/plan/planDraw.ts'
import { replay } from '../../../src/core/protocol/evolve.ts'
import type { DrawEvent } from '../../../src/core/protocol/events.ts'
import demo from '../../../src/data/demo.json' with { type: 'json' }
import type { Demo } from '../../../src/app/site/siteData.ts'
import { viewTexts } from '../../support/viewTexts.ts'
import { logOf, sampleOpening } from '../../support/sampleLog.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { samplePolicy } from '../../support/samplePlan.ts'

const text = (name: string): string => readFileSync(`src/data/catalogue/${name}`, 'utf8')
const TODAY = '2026-11-25'
const site = {
  ...siteCatalogue(
    {
      tests: text('tests.csv'),
      tubes: text('tubes.csv'),
      stock: text('stock.csv'),
      norms: text('norms.json'),
      preferences: text('preferences.json'),
      series: text('series.json'),
      search: text('search.json'),
      bloodLimits: text('bloodLimits.json'),
      laboratories: text('laboratories.json'),
    },
    texts,
  ),
  texts,
  policy: samplePolicy,
} as SiteData
const { order, patient, preparation, needleSet } = demo as Demo
const plan = planDraw({
  order,
  patient,
  preparation,
  needleSet,
  today: TODAY,
  policy: samplePolicy,
  catalogue: site.catalogue,
  stock: site.stock,
  bloodLimits: site.bloodLimits,
  texts,
})
const opening = sampleOpening({ order, patient, preparation, needleSet, plan })
const stateAfter = (...events: DrawEvent[]) =>
  replay(logOf([[0, opening], ...events.map((event, i) => [i + 1, event] as const)]).entries)
const first = plan.tubes[0]?.id ?? ''

it('plans a further needle for what is still missing, under ids never used before', () => {
  const s = stateAfter(
    { type: 'needleIn', attempt: 1 },
    { type: 'tubeOn', tubeId: first },
    { type: 'tubeOff', tubeId: first, fill: 'full' },
    { type: 'needleOut' },
  )
  const next = planAgain(s, site, TODAY, undefined)
  const fresh = next?.tubes.filter(({ id }) => id !== first) ?? []
  expect(fresh.flatMap(({ tests }) => tests).sort()).toEqual(
    plan.tubes
      .slice(1)
      .flatMap(({ tests }) => tests)
      .sort(),
  )
  const used = new Set(plan.tubes.map(({ id }) => id))
  expect(fresh.every(({ id }) => !used.has(id))).toBe(true)
})

it('says what the rack already serves and what is missing', () => {
  const s = stateAfter(
    { type: 'needleIn', attempt: 1 },
    { type: 'tubeOn', tubeId: first },
    { type: 'tubeOff', tubeId: first, fill: 'full' },
  )
  const lines = coverageLines(s, viewTexts)
  expect(lines[0]).toBe(`Covered: ${plan.tubes[0]?.tests.join(', ')}`)
  expect(lines[1]).toBe(
    `Missing: ${plan.tubes
      .slice(1)
      .flatMap(({ tests }) => tests)
      .join(', ')}`,
  )
  expect(lines[2]).toBe(`Try first: ${plan.tubes[1]?.name}`)
})

it('counts nothing as drawn before the first tube', () => {
  expect(coverageLines(stateAfter(), viewTexts).some((line) => line.startsWith('Covered'))).toBe(
    false,
  )
})

it('plans from a vein what a heel did not give, in tubes of a vein, and leaves the card to the heel', () => {
  const baby = { ...patient, birthDate: '2026-11-20', weight_kg: 3.4 }
  const tests = ['newbornScreen', 'cbc', 'bilirubinTotal']
  const input = { order: { ...order, tests }, patient: baby, preparation, needleSet, today: TODAY, policy: samplePolicy, catalogue: site.catalogue, stock: site.stock, bloodLimits: site.bloodLimits, texts, collecting: 'capillaryHeel' } as const // prettier-ignore
  const heel = planDraw(input)
  const opened = sampleOpening({ ...input, plan: heel })
  const state = (...events: DrawEvent[]) =>
    replay(logOf([[0, opened], ...events.map((event, i) => [i + 1, event] as const)]).entries)
  const s = state({ type: 'wentToVein', why: 'notEnough' }, { type: 'punctureBegun', number: 2 })
  const next = planAgain(s, site, TODAY, undefined)
  expect(next?.tubes.map(({ additive }) => additive)).not.toContain('filterPaper')
  expect(next?.uncovered.map(({ test }) => test)).toEqual(['newbornScreen'])
  expect(next?.tubes.flatMap(({ tests: of }) => of).sort()).toEqual(['bilirubinTotal', 'cbc'])
})
