import fc from 'fast-check'
import { expect, it } from 'vitest'
import { planSittings } from '../../src/core/plan/planSittings.ts'
import { dueOf_ms } from '../../src/core/series/due.ts'
import { sittingsOf } from '../../src/core/series/sittings.ts'
import { MOMENTS } from '../../src/core/order/sitting.ts'
import { planInput, SITE } from '../support/planning.ts'

const { tests, series = [] } = SITE.catalogue
const seriesCodes = series.map(({ code }) => code)
const testCodes = [
  ...tests.map(({ code }) => code).slice(0, 30),
  ...series.flatMap(({ sittings }) => sittings.flatMap((point) => point.tests)),
]
const anyOrder = fc.record({
  named: fc.subarray(seriesCodes, { maxLength: 3 }),
  single: fc.array(fc.constantFrom(...testCodes), { maxLength: 8 }),
})

it('every test that is ordered is drawn in some sitting, and nothing else is', () => {
  fc.assert(
    fc.property(anyOrder, ({ named, single }) => {
      const drawn = sittingsOf([...named, ...single], SITE.catalogue).flatMap(
        (sitting) => sitting.tests,
      )
      const wanted = series
        .filter(({ code }) => named.includes(code))
        .flatMap(({ sittings }) => sittings.flatMap((point) => point.tests))
      expect(new Set(drawn)).toEqual(new Set([...single, ...wanted]))
    }),
  )
})

it('the sittings of one series are numbered without a gap and hold their own tests', () => {
  fc.assert(
    fc.property(anyOrder, ({ named, single }) => {
      const sittings = sittingsOf([...named, ...single], SITE.catalogue)
      const parts = sittings.flatMap((sitting) => sitting.parts)
      for (const code of new Set(parts.map((part) => part.code))) {
        const own = parts.filter((part) => part.code === code)
        expect(own.map(({ number }) => number)).toEqual(own.map((_part, index) => index + 1))
        expect(own.every(({ of }) => of === own.length)).toBe(true)
      }
      for (const { parts: here, tests: held } of sittings) {
        expect(here.flatMap((part) => part.tests).every((test) => held.includes(test))).toBe(true)
      }
    }),
  )
})

it('due times of a series rise with its numbers, whenever its moments were', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 2_000_000_000_000 }), (at_ms) => {
      const moments = MOMENTS.map((moment) => ({ moment, at_ms }))
      for (const { sittings } of series) {
        const due = sittings.flatMap((point) => dueOf_ms(point, moments) ?? [])
        expect(due).toEqual([...due].sort((a, b) => a - b))
        expect(new Set(due).size).toBe(due.length)
      }
    }),
  )
})

it('no tube serves two sittings, and the blood of all of them is held against one limit', () => {
  fc.assert(
    fc.property(fc.constantFrom(...seriesCodes), (code) => {
      const planned = planSittings(planInput([code]))
      for (const { plan, tests: ordered } of planned) {
        expect(plan.uncovered).toEqual([])
        expect(plan.tubes.flatMap((tube) => tube.tests).sort()).toEqual([...ordered].sort())
      }
      let before_mL = 0
      for (const { plan } of planned) {
        expect(plan.blood.earlier_mL).toBeCloseTo(before_mL)
        before_mL += plan.blood.draw_mL
      }
    }),
    { numRuns: 30 },
  )
})
