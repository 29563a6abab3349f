import type { Catalogue } from '../catalogue/catalogue.ts'
import type { SeriesRow } from '../catalogue/series.ts'
import type { SittingPart } from '../order/sitting.ts'

/** One draw of an order: its tests, and the time points that they stand for. */
export interface Sitting {
  readonly tests: readonly string[]
  /** None in an order without a series. */
  readonly parts: readonly SittingPart[]
}

/**
 * The draws of an order, the first of them at once. A series stands among the tests under its own code, or is seen
 * in tests that belong to one. What belongs to no series is drawn with the first sitting; an order without a series
 * has one sitting with its tests as they stand.
 * @param ordered codes of tests and series
 */
export function sittingsOf(
  ordered: readonly string[],
  { series = [] }: Pick<Catalogue, 'series'>,
): readonly [Sitting, ...Sitting[]] {
  const named = series.filter(({ code }) => ordered.includes(code))
  const codes = new Set(series.map(({ code }) => code))
  let rest: readonly string[] = ordered.filter((code) => !codes.has(code))
  // A series that is named and spelled out as well is one.
  for (const row of named) rest = taken(rest, testsOf(row)) ?? rest
  const seen = [...series]
    .sort((a, b) => testsOf(b).length - testsOf(a).length)
    .filter((row) => {
      const without = row.recognized && !named.includes(row) && taken(rest, testsOf(row))
      if (without) rest = without
      return without
    })
  const chosen = [...named, ...seen].map(partsOf)
  if (chosen.length === 0) return [{ tests: ordered, parts: [] }]
  const first = chosen.flatMap(([part]) => part ?? [])
  const own = new Set(first.flatMap(({ tests }) => tests))
  const later = chosen.flatMap(([, ...parts]) => parts)
  return [
    // What is ordered beyond its series stands twice, so that somebody is told.
    { tests: [...own, ...rest], parts: first },
    ...later.map((part) => ({ tests: part.tests, parts: [part] })),
  ]
}

const testsOf = ({ sittings }: SeriesRow): readonly string[] =>
  sittings.flatMap(({ tests }) => tests)

function partsOf({ code, name, sittings }: SeriesRow): readonly SittingPart[] {
  return sittings.map((point, index) => ({
    ...point,
    code,
    name,
    number: index + 1,
    of: sittings.length,
  }))
}

/** `all` without the wanted ones, each taken as often as it is wanted; `undefined` where one is missing. */
function taken(all: readonly string[], wanted: readonly string[]): readonly string[] | undefined {
  const left = [...all]
  for (const code of wanted) {
    const place = left.indexOf(code)
    if (place < 0) return undefined
    left.splice(place, 1)
  }
  return left
}
