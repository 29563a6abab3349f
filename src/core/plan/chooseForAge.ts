import type { TestRow } from '../catalogue/catalogue.ts'
import { chooseTubes } from './chooseTubes.ts'
import type { Chosen } from './chosen.ts'
import type { SpecimenConditions } from './packProblemOf.ts'
import { filledToNeed, withPartFills } from './partFills.ts'
import { isForDrops, tubesForAge } from './tubesForAge.ts'
import { fillOf_mL, type UsableTube } from './usableStock.ts'

/** Part fills are for infants, and for other children where blood is short (common practice, no source). */
const INFANT_BELOW_y = 1
export const ADULT_FROM_y = 18

/** Smaller tubes are a second try after a whole search, and nobody is kept waiting for it. */
const SMALL_STEPS = 20_000
/** Every mark of a tube is a kind of its own: a search among them that is not over by then is not worth the wait. */
const PART_STEPS = 2000

/**
 * Chooses among the tubes that are usual at an age. For a child the smaller tubes, and then tubes filled in part, are
 * taken where only so the first limit is kept or all tests have a tube; for an infant at once.
 * @param limits_mL blood that may be taken, ascending.
 */
export function chooseForAge(
  tests: readonly TestRow[],
  usable: readonly UsableTube[],
  conditions: SpecimenConditions,
  limits_mL: readonly number[],
  age_y: number,
): Chosen {
  const choose = (stock: readonly UsableTube[], steps?: number): Chosen =>
    chooseTubes(tests, stock, conditions, limits_mL, steps)
  const usual = tubesForAge(usable, age_y, false)
  if (age_y < INFANT_BELOW_y) return inPart(usual, choose) ?? filledToNeed(choose(usual))
  const first = choose(usual)
  if (age_y >= ADULT_FROM_y || suffices(first, limits_mL)) return first
  const small = tubesForAge(usable, age_y, true)
  const second = small.length === usual.length ? first : choose(small, SMALL_STEPS)
  if (suffices(second, limits_mL)) return second
  const third = filledToNeed(second)
  if (suffices(third, limits_mL)) return third
  const fourth = inPart(small, choose)
  return fourth && suffices(fourth, limits_mL) ? fourth : third
}

/** Chooses among tubes that are filled drop by drop, at any age each no fuller than its tests need. */
export function chooseForDrops(
  tests: readonly TestRow[],
  usable: readonly UsableTube[],
  conditions: SpecimenConditions,
  limits_mL: readonly number[],
): Chosen {
  const stock = usable.filter(({ tube }) => isForDrops(tube))
  const able = tests.filter(({ notCapillary }) => !notCapillary)
  const choose = (from: readonly UsableTube[], steps?: number): Chosen =>
    chooseTubes(able, from, conditions, limits_mL, steps)
  const found = inPart(stock, choose) ?? filledToNeed(choose(stock))
  return {
    ...found,
    uncovered: tests.filter((test) => test.notCapillary || found.uncovered.includes(test)),
  }
}

/** Every test has a tube, and the first limit is kept. */
function suffices({ tubes, uncovered }: Chosen, [strictest]: readonly number[]): boolean {
  const blood_mL = tubes.reduce((sum, tube) => sum + fillOf_mL(tube.usable), 0)
  return uncovered.length === 0 && (strictest === undefined || blood_mL <= strictest + 1e-9)
}

/**
 * The best choice with tubes filled in part; `undefined` where there are none, where it would take more than there
 * are, or where the search had to stop before it knew.
 */
function inPart(
  stock: readonly UsableTube[],
  choose: (stock: readonly UsableTube[], steps: number) => Chosen,
): Chosen | undefined {
  const parts = withPartFills(stock)
  if (parts.length === stock.length) return undefined
  const found = choose(parts, PART_STEPS)
  const used = (code: string): number =>
    found.tubes.filter(({ usable }) => usable.tube.code === code).length
  // Each mark has all of the stock to it.
  const enough = stock.every(({ tube, count }) => used(tube.code) <= count)
  return found.proven && enough ? found : undefined
}
