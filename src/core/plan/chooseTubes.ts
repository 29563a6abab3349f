import type { TestRow } from '../catalogue/catalogue.ts'
import { asPreferred } from './asPreferred.ts'
import type { Chosen } from './chosen.ts'
import { compareCost } from './packing/component.ts'
import type { Packing, PackProblem } from './packing/packProblem.ts'
import { packTubes, SEARCH_STEPS } from './packing/packTubes.ts'
import { fullDemands, packProblem, type Level, type SpecimenConditions } from './packProblemOf.ts'
import { oneSaltFirst } from './oneSaltFirst.ts'
import { sharingVariants } from './sharingVariants.ts'
import type { UsableTube } from './usableStock.ts'

/** Orders of more tests than this get a valid plan without the finer choices, so that nobody is kept waiting. */
const USUAL_TESTS = 40
const STEPS_BEYOND = 1000

/**
 * Chooses the tubes: on preferred volumes if that leaves no more tests out and keeps to the blood allowed,
 * otherwise on minimum volumes. Two salts of EDTA are mixed only where one alone would leave more tests out.
 * @param limits_mL blood that may be taken, ascending: each is tried before the next, and none when none can be kept.
 */
export function chooseTubes(
  tests: readonly TestRow[],
  stock: readonly UsableTube[],
  conditions: SpecimenConditions,
  limits_mL: readonly number[],
  steps: number = tests.length > USUAL_TESTS ? STEPS_BEYOND : SEARCH_STEPS,
): Chosen {
  const wanted = asPreferred(tests, stock, conditions)
  const by = (allowed: readonly UsableTube[]): Chosen =>
    choose(wanted, allowed, conditions, limits_mL, steps)
  return tests.length > USUAL_TESTS ? by(stock) : oneSaltFirst(wanted, stock, by)
}

interface Solution {
  readonly problem: PackProblem
  readonly packing: Packing
}

function choose(
  tests: readonly TestRow[],
  stock: readonly UsableTube[],
  conditions: SpecimenConditions,
  limits_mL: readonly number[],
  steps: number,
): Chosen {
  const many = tests.length > USUAL_TESTS
  const variants = sharingVariants(tests).slice(0, many ? 1 : undefined)
  /** The cheapest over all ways of putting together what may be iced but need not. */
  const solve = (level: Level, mostOut?: number, most_uL?: number): Solution | undefined =>
    variants
      .flatMap((sharing) => {
        const problem = { ...packProblem(tests, stock, level, conditions), sharing }
        const packing = packTubes(problem, { mostOut, most_uL }, steps)
        return packing ? [{ problem, packing }] : []
      })
      .reduce<Solution | undefined>((a, b) => (a && better(a, b) ? a : b), undefined)

  const limits_uL = limits_mL.map((most) => Math.floor(most * 1000 + 1e-6))
  const keeps = ({ packing }: Solution, most_uL: number): boolean =>
    packing.cost.blood_uL <= most_uL
  const done = (level: Chosen['level'], solution?: Solution, overLimit = false): Chosen =>
    chosen(tests, stock, conditions, level, solution, overLimit)

  const tight = solve('preferred')
  const whole = roomier(many ? undefined : solve('reserve'), tight)
  if (whole?.packing.cost.out === 0 && limits_uL.every((most_uL) => keeps(whole, most_uL))) {
    return done('preferred', whole)
  }
  const free = solve('least')
  const mostOut = free?.packing.cost.out ?? tests.length
  const within = (level: Chosen['level'], most_uL: number): Solution | undefined => {
    const open = level === 'least' ? free : whole
    if (open && open.packing.cost.out > mostOut) return undefined
    return open && keeps(open, most_uL) ? open : solve(level, mostOut, most_uL)
  }
  for (const [i, most_uL] of (limits_uL.length === 0 ? [Infinity] : limits_uL).entries()) {
    // Beyond the first limit nobody takes more than the least.
    const generous = i === 0 ? within('preferred', most_uL) : undefined
    if (generous) return done('preferred', generous)
    const modest = within('least', most_uL)
    if (modest) return done('least', modest)
  }
  return done('least', free, true)
}

const better = (a: Solution, b: Solution): boolean =>
  (compareCost(a.packing.cost, b.packing.cost) || a.packing.cost.kinds - b.packing.cost.kinds) <= 0

/** No reserve is worth more blood than this (common practice, no source). */
const MOST_FOR_RESERVE_uL = 2000

/** Some room is left in the tubes where that takes no further tube, little blood, and passes over no preference. */
function roomier(reserve: Solution | undefined, tight: Solution | undefined): Solution | undefined {
  if (!reserve || !tight) return tight
  const [a, b] = [reserve.packing.cost, tight.packing.cost]
  const spares = a.blood_uL - b.blood_uL <= MOST_FOR_RESERVE_uL
  return a.out === b.out && a.tubes === b.tubes && a.rank === b.rank && spares ? reserve : tight
}

function chosen(
  tests: readonly TestRow[],
  stock: readonly UsableTube[],
  conditions: SpecimenConditions,
  level: Chosen['level'],
  solution: Solution | undefined,
  overLimit: boolean,
): Chosen {
  const pick = (items: readonly number[]): TestRow[] =>
    items.flatMap((i) => (tests[i] ? [tests[i]] : []))
  const least = tests.map((test) => fullDemands(test, stock, test.least_mL, conditions))
  const tubes = (solution?.packing.tubes ?? []).flatMap(({ kind, items }) => {
    const usable = stock[kind]
    const used_uL = items.reduce((sum, i) => sum + (solution?.problem.rows[i]?.[kind] ?? 0), 0)
    const needs_mL = items.map((item) => (least[item]?.[kind] ?? 0) / 1000)
    return usable ? [{ usable, tests: pick(items), needs_mL, used_mL: used_uL / 1000 }] : []
  })
  const fits = (demands: readonly (number | undefined)[]): boolean =>
    demands.some((demand) => demand !== undefined)
  const reduced = tests.filter(
    (test, i) =>
      level === 'preferred' &&
      test.preferred_mL > test.least_mL &&
      fits(least[i] ?? []) &&
      !fits(fullDemands(test, stock, test.preferred_mL, conditions)),
  )
  const uncovered = pick(solution?.packing.out ?? tests.map((_test, i) => i))
  const proven = solution?.packing.proven ?? false
  return { tubes, uncovered, level, reduced, proven, overLimit }
}
