import { describe, expect, it } from 'vitest'
import type { Packing, PackProblem } from '../../src/core/plan/packing/packProblem.ts'
import { packTubes } from '../../src/core/plan/packing/packTubes.ts'
import {
  bruteForce,
  compareScores,
  highsOracle,
  random,
  randomProblem,
  type Score,
} from '../support/packingOracles.ts'
import { WIDE } from '../support/wide.ts'

/** The narrow run tries a quarter of the cases. */
const SHARE = WIDE ? 1 : 4

const score = (packing: Packing | undefined): Score | undefined =>
  packing && [
    packing.cost.out,
    packing.cost.tubes,
    packing.cost.rank,
    packing.cost.blood_uL,
    packing.cost.kinds,
  ]

/** What the packing really is, counted from its tubes; throws on an overfilled or wrongly shared tube. */
function counted(problem: PackProblem, packing: Packing): Score {
  const used = problem.kinds.map(() => 0)
  const seen = new Set<number>(packing.out)
  for (const { kind, items } of packing.tubes) {
    used[kind]!++
    const load = items.reduce((sum, item) => sum + (problem.rows[item]?.[kind] ?? Infinity), 0)
    if (load > problem.kinds[kind]!.capacity_uL) throw new Error('overfilled')
    const groups = new Set(items.map((item) => problem.sharing[item]))
    if (groups.size !== 1 || (groups.has('alone') && items.length > 1)) throw new Error('sharing')
    for (const item of items) {
      if (seen.has(item)) throw new Error('an item twice')
      seen.add(item)
    }
  }
  if (seen.size !== problem.rows.length) throw new Error('an item lost')
  used.forEach((n, kind) => {
    if (n > problem.kinds[kind]!.count) throw new Error('more than the stock')
  })
  const blood = packing.tubes.reduce((sum, t) => sum + problem.kinds[t.kind]!.blood_uL, 0)
  const rank = packing.tubes
    .flatMap(({ kind, items }) => items.map((item) => problem.ranks?.[item]?.[kind] ?? 0))
    .reduce((sum, own) => sum + own, 0)
  return [packing.out.length, packing.tubes.length, rank, blood, used.filter((n) => n > 0).length]
}

// Generous: thousands of cases on a machine that may be busy.
describe('the exact search', { timeout: 180_000 }, () => {
  it('equals brute force on some thousand random orders of up to 5 tests', () => {
    const numbers = random(20261125)
    let tubes = 0
    for (let n = 0; n < 3000 / SHARE; n++) {
      const problem = randomProblem(numbers, { items: 5, kinds: 4, stock: 3 })
      const found = packTubes(problem)!
      expect(found.proven, `case ${n}`).toBe(true)
      expect(score(found), `case ${n}`).toEqual(bruteForce(problem))
      expect(counted(problem, found), `case ${n}`).toEqual(score(found))
      tubes += found.cost.tubes
    }
    expect(tubes).toBeGreaterThan(3000 / SHARE)
  })

  it('equals brute force on some thousand random orders whose tests prefer one kind to another', () => {
    const numbers = random(12)
    let yielded = 0
    for (let n = 0; n < 2000 / SHARE; n++) {
      const problem = randomProblem(numbers, {
        items: 5,
        kinds: 4,
        stock: 3,
        accepts: 0.8,
        ranks: [0, 0, 1, 2],
      })
      const found = packTubes(problem)!
      expect(found.proven, `case ${n}`).toBe(true)
      expect(score(found), `case ${n}`).toEqual(bruteForce(problem))
      expect(counted(problem, found), `case ${n}`).toEqual(score(found))
      if (found.cost.rank > 0) yielded++
    }
    // Preferences must really have been passed over, or the check would be empty.
    expect(yielded).toBeGreaterThan(200)
  })

  it('equals brute force under a blood limit on some thousand random orders', () => {
    const numbers = random(7)
    let refused = 0
    let changed = 0
    for (let n = 0; n < 2000 / SHARE; n++) {
      // Sizes far apart: two small tubes then often take less blood than one large.
      const problem = randomProblem(numbers, {
        items: 5,
        kinds: 3,
        stock: 4,
        accepts: 0.95,
        sizes_mL: [2, 3, 9, 10],
        ranks: n % 2 ? [0, 1, 2] : [0],
      })
      const free = packTubes(problem)!
      const most_uL = Math.max(0, free.cost.blood_uL - numbers.pick([100, 1000, 2000]))
      const bound = bruteForce(problem, most_uL)
      const wanted = bound?.[0] === free.cost.out ? bound : undefined
      const found = packTubes(problem, { most_uL, mostOut: free.cost.out })
      expect(score(found), `case ${n}`).toEqual(wanted)
      if (!found) refused++
      else if (compareScores(score(found)!, score(free)!) !== 0) changed++
    }
    // Both kinds of answer must really have come up.
    expect(refused).toBeGreaterThan(100)
    expect(changed).toBeGreaterThan(20)
  })

  it(
    'equals the HiGHS solver on 80 random orders of up to 12 tests',
    { timeout: 60_000 },
    async () => {
      const highs = await highsOracle()
      const numbers = random(42)
      for (let n = 0; n < 80; n++) {
        const ranks = n % 2 ? [0, 1, 2] : [0]
        const problem = randomProblem(numbers, { items: 12, kinds: 6, stock: 4, ranks })
        const found = packTubes(problem)!
        expect(found.proven, `case ${n}`).toBe(true)
        expect(score(found), `case ${n}`).toEqual(highs(problem))
        expect(counted(problem, found), `case ${n}`).toEqual(score(found))
      }
    },
  )

  it('says when it could not prove its answer, and still gives a valid one', () => {
    const numbers = random(3)
    let unproven = 0
    for (let n = 0; n < 200; n++) {
      const problem = randomProblem(numbers, { items: 12, kinds: 6, stock: 4 })
      const short = packTubes(problem, {}, 25)!
      expect(counted(problem, short)).toEqual(score(short))
      if (!short.proven) unproven++
      else expect(score(short)).toEqual(score(packTubes(problem)))
    }
    expect(unproven).toBeGreaterThan(20)
  })
})
