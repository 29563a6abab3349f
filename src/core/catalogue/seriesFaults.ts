import { fillText } from '../basics/fillText.ts'
import type { TestRow } from './catalogue.ts'
import type { Fault } from './catalogueFaults.ts'
import type { CatalogueTexts } from './catalogueTexts.ts'
import type { DoseRow, SeriesRow } from './series.ts'

/** The two tables about orders in time. */
export interface SeriesTables {
  readonly series: readonly SeriesRow[]
  readonly doses: readonly DoseRow[]
}

/** Faults of meaning: tests that are not there, a code that is taken, time points that do not follow each other. */
export function seriesFaults(
  { series = [], doses = [] }: Partial<SeriesTables>,
  tests: readonly TestRow[],
  { faults: texts }: CatalogueTexts,
): Fault[] {
  const codes = new Map(tests.map(({ code }, index) => [code, index + 1]))
  const unknown = (row: number, column: string, used: readonly string[]): Fault[] =>
    used
      .filter((code) => !codes.has(code))
      .map((code) => ({
        table: 'series',
        row,
        column,
        text: fillText(texts.unknownTest, { code }),
      }))
  const taken = new Map<string, number>(codes)
  return [
    ...series.flatMap((each, index) => {
      const row = index + 1
      const first = taken.get(each.code)
      taken.set(each.code, row)
      const used = each.sittings.flatMap((point) => point.tests)
      return [
        ...(first === undefined
          ? []
          : [
              {
                table: 'series' as const,
                row,
                column: 'code',
                text: fillText(texts.codeTaken, { code: each.code, row: first }),
              },
            ]),
        ...unknown(row, 'sittings', [...new Set(used)]),
        ...notRising(each).map((number) => ({
          table: 'series' as const,
          row,
          column: 'sittings',
          text: fillText(texts.notRising, { number }),
        })),
      ]
    }),
    ...doses.flatMap((each, index) => unknown(index + 1, 'doses', each.tests)),
  ]
}

/** What of them can be used with other tests than they were written for. */
export function seriesFor(
  { series = [], doses = [] }: Partial<SeriesTables>,
  tests: readonly TestRow[],
): SeriesTables {
  const codes = new Set(tests.map(({ code }) => code))
  return {
    series: series.filter(
      ({ code, sittings }) =>
        !codes.has(code) && sittings.every((point) => point.tests.every((test) => codes.has(test))),
    ),
    doses: doses.map((row) => ({ ...row, tests: row.tests.filter((test) => codes.has(test)) })),
  }
}

/** Numbers of sittings that are not later than an earlier one counted from the same moment. */
function notRising({ sittings }: SeriesRow): readonly number[] {
  return sittings.flatMap(({ from, after_min }, index) => {
    const before = sittings
      .slice(0, index)
      .filter((point) => from !== undefined && point.from === from)
    const late = before.some((point) => (point.after_min ?? 0) >= (after_min ?? 0))
    return late ? [index + 1] : []
  })
}
