import { findSalt, SALTS } from '../catalogue/additives.ts'
import type { TestRow } from '../catalogue/catalogue.ts'
import type { Chosen } from './chosen.ts'
import type { UsableTube } from './usableStock.ts'

/**
 * Chooses with one salt of EDTA for the whole patient, the one that takes fewer tubes and else dipotassium, and
 * mixes the two only where either alone
 * would leave more tests out or pass a limit. (One salt keeps counts comparable: common practice; dipotassium first:
 * ICSH recommendation 1993, from memory.)
 */
export function oneSaltFirst(
  tests: readonly TestRow[],
  stock: readonly UsableTube[],
  choose: (allowed: readonly UsableTube[]) => Chosen,
): Chosen {
  const accepted = new Set(tests.flatMap(({ accepts }) => accepts.map(({ additive }) => additive)))
  const onHand = new Set(
    stock
      .filter(({ tube }) => accepted.has(tube.additive))
      .map(({ tube }) => findSalt(tube.additive)),
  )
  if (!SALTS.every((salt) => onHand.has(salt))) return choose(stock)
  const without = (salt: (typeof SALTS)[number]): readonly UsableTube[] =>
    stock.filter(({ tube }) => findSalt(tube.additive) !== salt)
  const [first, second] = SALTS
  const one = choose(without(second))
  const both = choose(stock)
  if (worse(one, both) <= 0 && one.tubes.length <= both.tubes.length) return one
  const other = choose(without(first))
  const pure =
    worse(other, one) < 0 || (worse(other, one) === 0 && other.tubes.length < one.tubes.length)
      ? other
      : one
  return worse(both, pure) < 0 ? both : pure
}

/** Negative when `a` leaves fewer tests out, or as many and keeps to the blood allowed where `b` does not. */
function worse(a: Chosen, b: Chosen): number {
  return a.uncovered.length - b.uncovered.length || Number(a.overLimit) - Number(b.overLimit)
}
