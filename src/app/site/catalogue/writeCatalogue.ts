import Papa from 'papaparse'
import type { Catalogue, StockTube, TestRow, TubeRow } from '../../../core/catalogue/catalogue.ts'
import { searchWordsFor } from '../../../core/catalogue/searchWords.ts'
import { seriesFor } from '../../../core/catalogue/seriesFaults.ts'
import { STOCK_SHAPE, TESTS_SHAPE, TUBES_SHAPE } from './readCatalogue.ts'
import { FORMULA_CELL } from './formulaCells.ts'
import { writeSpecimen } from './specimenWords.ts'

/** CSV that `readTests` reads back to the same rows. Cells that a spreadsheet would run as formulas are defused. */
export function testsCsv(tests: readonly TestRow[]): string {
  return csv(
    TESTS_SHAPE.columns,
    tests.map((test) => ({
      ...test,
      aliases: test.aliases.join(';'),
      specimen: writeSpecimen(test.accepts),
      transfusion: test.transfusion ? 'yes' : '',
      capillary: test.notCapillary ? 'no' : '',
      neverIn: test.neverIn?.join(';'),
      handling: test.handling.join(';'),
      fasting: test.fasting ? 'yes' : '',
    })),
  )
}

export function tubesCsv(tubes: readonly TubeRow[]): string {
  return csv(
    TUBES_SHAPE.columns,
    tubes.map((tube) => ({ ...tube, partialFill: tube.partialFill ? 'yes' : '' })),
  )
}

export function stockCsv(stock: readonly StockTube[]): string {
  return csv(STOCK_SHAPE.columns, stock)
}

/** Series and search words of tests that the catalogue has not are left out: they could not be read back. */
export function catalogueJson(catalogue: Catalogue): string {
  const { version, tests, tubes } = catalogue
  const search = catalogue.search && searchWordsFor(catalogue.search, tests)
  const { series, doses } = seriesFor(catalogue, tests)
  return `${JSON.stringify({ version, tests, tubes, series, doses, search }, null, 2)}\n`
}

/** CSV text with the columns in their order; what a spreadsheet would run is defused. */
export function csv(columns: readonly string[], rows: readonly object[]): string {
  const text = Papa.unparse([...rows], {
    columns: [...columns],
    escapeFormulae: FORMULA_CELL,
    newline: '\n',
  })
  return `${text}\n`
}
