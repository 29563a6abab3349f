import type { Catalogue } from '../../core/catalogue/catalogue.ts'
import type { DayRules } from '../../core/day/dayList.ts'
import { sittingsOf } from '../../core/series/sittings.ts'

/** What the list has to know of the site's tests. */
export function dayRules(catalogue: Pick<Catalogue, 'tests' | 'series'>): DayRules {
  const { tests, series = [] } = catalogue
  const codesOf = (isSo: (test: Catalogue['tests'][number]) => boolean): ReadonlySet<string> =>
    new Set(tests.filter(isSo).map(({ code }) => code))
  const fasting = codesOf((test) => test.fasting === true)
  const begun = new Map(
    series.map(({ code, sittings }) => [code, sittings.flatMap((each) => each.tests)]),
  )
  return {
    ownIdentity: codesOf((test) => test.transfusion === true),
    isSeries: (ordered) => sittingsOf(ordered, catalogue)[0].parts.length > 0,
    isFasting: (ordered) =>
      ordered.some(
        (code) => fasting.has(code) || begun.get(code)?.some((test) => fasting.has(test)) === true,
      ),
  }
}
