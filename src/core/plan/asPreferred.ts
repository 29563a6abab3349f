import type { TestRow } from '../catalogue/catalogue.ts'
import type { SpecimenConditions } from './packProblemOf.ts'
import type { UsableTube } from './usableStock.ts'

/**
 * The tests as the site wants them drawn: only the tubes that it keeps for them where one is on hand, and sharing only
 * with their own group where it wants a tube for each group.
 */
export function asPreferred(
  tests: readonly TestRow[],
  stock: readonly UsableTube[],
  { preferences = [] }: SpecimenConditions,
): readonly TestRow[] {
  const onHand = new Set(stock.map(({ tube }) => tube.additive))
  return tests.map((test) =>
    preferences
      .filter((preference) => preference.tests.includes(test.code))
      .reduce((row, { id, additives = [], ownTube }) => {
        const kept = additives.flatMap((name) =>
          row.accepts.filter(({ additive }) => additive === name && onHand.has(name)),
        )
        const accepts = kept.length > 0 ? kept : row.accepts
        const sharing = ownTube && row.sharing !== 'alone' ? `group ${id}` : row.sharing
        return { ...row, accepts, sharing }
      }, test),
  )
}
