import type { TestRow } from '../catalogue/catalogue.ts'
import type { Norms } from '../catalogue/norms.ts'
import type { Packing, PackProblem } from './packing/packProblem.ts'
import { packTubes, SEARCH_STEPS } from './packing/packTubes.ts'
import { bloodFor_uL, specimenYield } from './specimenYield.ts'
import type { UsableTube } from './usableStock.ts'

/** A tube to be drawn with the tests it will serve, and the blood they need of it. */
export interface ChosenTube {
  readonly usable: UsableTube
  readonly tests: readonly TestRow[]
  /** Least blood each of `tests` needs, mL, index for index. */
  readonly needs_mL: readonly number[]
  readonly used_mL: number
}

export interface Chosen {
  readonly tubes: readonly ChosenTube[]
  readonly uncovered: readonly TestRow[]
  /** `least`: planned on minimum volumes because the preferred ones did not fit. */
  readonly level: 'preferred' | 'least'
  /** Tests for which only the minimum fits any tube on hand, though the rest have their preferred volume. */
  readonly reduced: readonly TestRow[]
  readonly proven: boolean
  /** True when no choice kept to the blood allowed; the tubes then ignore it. */
  readonly overLimit: boolean
}

/** What the yield of a tube depends on. */
export interface SpecimenConditions {
  readonly norms: Norms
  readonly haematocrit_pct: number
}

/**
 * Chooses the tubes: on preferred volumes if that leaves no more tests out and keeps to the blood allowed,
 * otherwise on minimum volumes.
 * @param limits_mL blood that may be taken, ascending: each is tried before the next, and none when none can be kept.
 */
export function chooseTubes(
  tests: readonly TestRow[],
  stock: readonly UsableTube[],
  conditions: SpecimenConditions,
  limits_mL: readonly number[],
  steps: number = SEARCH_STEPS,
): Chosen {
  const least = packProblem(tests, stock, 'least', conditions)
  const preferred = packProblem(tests, stock, 'preferred', conditions)
  const whole = packTubes(preferred, {}, steps)
  const limits_uL = limits_mL.map((most) => Math.floor(most * 1000 + 1e-6))
  const keeps = (packing: Packing, most_uL: number): boolean => packing.cost.blood_uL <= most_uL
  if (whole?.cost.out === 0 && limits_uL.every((most_uL) => keeps(whole, most_uL))) {
    return chosen(tests, stock, preferred, whole, 'preferred', least, false)
  }
  const free = packTubes(least, {}, steps)
  const mostOut = free?.cost.out ?? tests.length
  const within = (problem: PackProblem, most_uL: number): Packing | undefined => {
    const open = problem === least ? free : whole
    if (open && open.cost.out > mostOut) return undefined
    return open && keeps(open, most_uL) ? open : packTubes(problem, { mostOut, most_uL }, steps)
  }
  for (const most_uL of limits_uL.length === 0 ? [Infinity] : limits_uL) {
    const generous = within(preferred, most_uL)
    if (generous) return chosen(tests, stock, preferred, generous, 'preferred', least, false)
    const modest = within(least, most_uL)
    if (modest) return chosen(tests, stock, least, modest, 'least', least, false)
  }
  return chosen(tests, stock, least, free, 'least', least, true)
}

/** The tests and the tubes on hand as a problem of packing, in whole µL. */
export function packProblem(
  tests: readonly TestRow[],
  stock: readonly UsableTube[],
  level: 'preferred' | 'least',
  conditions: SpecimenConditions,
): PackProblem {
  return {
    rows: tests.map((test) => demands(test, stock, level, conditions)),
    sharing: tests.map(sharingKey),
    kinds: stock.map(({ tube, count }) => {
      const nominal_uL = Math.round(tube.nominal_mL * 1000)
      return { capacity_uL: nominal_uL, blood_uL: nominal_uL, count }
    }),
  }
}

/** Blood each tube on hand would have to give for a test. A preferred volume no tube can hold falls to the minimum. */
function demands(
  test: TestRow,
  stock: readonly UsableTube[],
  level: 'preferred' | 'least',
  { norms, haematocrit_pct }: SpecimenConditions,
): (number | undefined)[] {
  const at = (specimen_mL: number): (number | undefined)[] =>
    stock.map(({ tube }) => {
      const need = test.accepts.find((n) => n.additive === tube.additive)
      if (!need) return undefined
      const demand = bloodFor_uL(specimen_mL, specimenYield(need.kind, haematocrit_pct, norms))
      return demand <= Math.round(tube.nominal_mL * 1000) ? demand : undefined
    })
  const row = at(level === 'preferred' ? test.preferred_mL : test.least_mL)
  return row.some((demand) => demand !== undefined) ? row : at(test.least_mL)
}

/** Tests meet in a tube only when they may share and want the same temperature. */
function sharingKey(test: TestRow): string {
  if (test.sharing === 'alone') return 'alone'
  const temperature = test.handling.find((h) => h === 'ice' || h === 'warm') ?? 'room'
  return `with ${test.sharing}, ${temperature}`
}

function chosen(
  tests: readonly TestRow[],
  stock: readonly UsableTube[],
  problem: PackProblem,
  packing: Packing | undefined,
  level: 'preferred' | 'least',
  least: PackProblem,
  overLimit: boolean,
): Chosen {
  const pick = (items: readonly number[]): TestRow[] =>
    items.flatMap((i) => (tests[i] ? [tests[i]] : []))
  const tubes = (packing?.tubes ?? []).flatMap(({ kind, items }) => {
    const usable = stock[kind]
    const used_uL = items.reduce((sum, item) => sum + (problem.rows[item]?.[kind] ?? 0), 0)
    const needs_mL = items.map((item) => (least.rows[item]?.[kind] ?? 0) / 1000)
    return usable ? [{ usable, tests: pick(items), needs_mL, used_mL: used_uL / 1000 }] : []
  })
  const reduced =
    level === 'least'
      ? []
      : tests.filter(
          (test, i) =>
            test.preferred_mL > test.least_mL &&
            String(problem.rows[i]) === String(least.rows[i]) &&
            problem.rows[i]?.some((demand) => demand !== undefined),
        )
  const uncovered = pick(packing?.out ?? tests.map((_test, i) => i))
  return { tubes, uncovered, level, reduced, proven: packing?.proven ?? false, overLimit }
}
