import Papa from 'papaparse'
import type { Figures } from '../../core/figures/figuresOf.ts'
import { FORMULA_CELL } from '../site/catalogue/formulaCells.ts'
import type { FigureTexts } from '../site/figureTexts.ts'

/** Every point of every figure as one table. Cells that a spreadsheet would run as formulas are defused. */
export function figuresCsv(
  { times, proportions }: Pick<Figures, 'times' | 'proportions'>,
  texts: FigureTexts['csv'],
  isPractice: boolean,
): string {
  const practice = isPractice ? texts.yes : texts.no
  const columns = [
    ...[texts.figure, texts.practice, texts.from, texts.count, texts.of],
    ...[texts.share, texts.lower, texts.upper, texts.median_s],
  ]
  const rows = [
    ...times.flatMap(({ id, points, limits }) =>
      points.map(({ from, n, median_s }) => [
        ...[id, practice, from, '', n, ''],
        ...[place(limits?.lower), place(limits?.upper), place(median_s)],
      ]),
    ),
    ...proportions.flatMap(({ id, points }) =>
      points.map(({ from, count, of, share, lower, upper }) => [
        ...[id, practice, from, count, of, place(share), place(lower), place(upper), ''],
      ]),
    ),
  ]
  return csvText(columns, rows)
}

/** Lines of cells, the first of them the names of the columns. */
export function csvText(
  columns: readonly string[],
  rows: readonly (readonly (string | number)[])[],
): string {
  const text = Papa.unparse([[...columns], ...rows.map((row) => [...row])], {
    escapeFormulae: FORMULA_CELL,
    newline: '\n',
  })
  return `${text}\n`
}

const place = (value: number | undefined): string =>
  value === undefined ? '' : String(Number(value.toFixed(4)))
