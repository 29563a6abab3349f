/**
 * Planning time for orders of 1, 5, 15 and 40 tests of the starter catalogue, and the time HiGHS takes for the same
 * tube problem in the same run. HiGHS solves it as two integer programs (left out and tubes, then blood and kinds),
 * without the clinical rules around it. Medians, ms; 40-test programs are given to HiGHS only once and cut at 60 s.
 */
import { performance } from 'node:perf_hooks'
import { usableStock } from '../../src/core/plan/usableStock.ts'
import { packProblem } from '../../src/core/plan/packProblemOf.ts'
import { packTubes } from '../../src/core/plan/packing/packTubes.ts'
import { planDraw } from '../../src/core/plan/planDraw.ts'
import { highsOracle, random } from '../support/packingOracles.ts'
import { planInput, SITE } from '../support/planning.ts'

const numbers = random(15)
const codes = SITE.catalogue.tests.map(({ code }) => code)

function pickTests(size: number): string[] {
  const left = [...codes]
  return Array.from({ length: size }, () => left.splice(numbers.whole(0, left.length - 1), 1)[0]!)
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)] ?? NaN
}

function timed<T>(work: () => T): { value: T; ms: number } {
  const start = performance.now()
  const value = work()
  return { value, ms: performance.now() - start }
}

const round = (value: number): number => Number(value.toPrecision(3))

const highs = await highsOracle(60)
const conditions = { norms: SITE.catalogue.norms, haematocrit_pct: 40 }
for (let n = 0; n < 50; n++) planDraw(planInput(pickTests(10)))

const results = []
for (const { size, orders, compared } of [
  { size: 1, orders: 200, compared: 20 },
  { size: 5, orders: 200, compared: 10 },
  { size: 15, orders: 200, compared: 3 },
  { size: 40, orders: 60, compared: 1 },
]) {
  const plans: number[] = []
  let notProven = 0
  for (let n = 0; n < orders; n++) {
    const { value, ms } = timed(() => planDraw(planInput(pickTests(size))))
    plans.push(ms)
    if (value.warnings.some(({ code }) => code === 'notProven')) notProven++
  }
  const searches: number[] = []
  const solver: number[] = []
  let agree = 0
  let cut = 0
  for (let n = 0; n < compared; n++) {
    const picked = new Set(pickTests(size))
    const tests = SITE.catalogue.tests.filter(({ code }) => picked.has(code))
    const { usable } = usableStock(SITE.catalogue, SITE.stock, '2026-11-25')
    // Three of a kind are enough for any optimum here and spare HiGHS thousands of idle tubes.
    const few = usable.map((tube) => ({ ...tube, count: 3 }))
    const problem = packProblem(tests, few, 'preferred', conditions)
    const ours = timed(() => packTubes(problem)!)
    searches.push(ours.ms)
    const theirs = timed(() => {
      try {
        return highs(problem)
      } catch {
        return undefined
      }
    })
    solver.push(theirs.ms)
    const { out, tubes, blood_uL, kinds } = ours.value.cost
    if (!theirs.value) cut++
    else if (String(theirs.value) === String([out, tubes, blood_uL, kinds])) agree++
  }
  results.push({
    tests: size,
    orders,
    plan_ms: round(median(plans)),
    planSlowest_ms: round(Math.max(...plans)),
    notProven,
    comparedWithHighs: compared,
    sameAnswer: agree,
    highsCut: cut,
    search_ms: round(median(searches)),
    highs_ms: round(median(solver)),
    highsOverSearch: round(median(solver) / median(searches)),
  })
}
console.log(JSON.stringify({ goals_ms: { 15: 5, 40: 50 }, results }, null, 2))
