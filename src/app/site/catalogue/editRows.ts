import Papa from 'papaparse'
import { ok, type Result } from '../../../core/basics/result.ts'
import type { Catalogue, StockTube } from '../../../core/catalogue/catalogue.ts'
import { plainCell } from './formulaCells.ts'
import {
  readStock,
  STOCK_SHAPE,
  TESTS_SHAPE,
  TUBES_SHAPE,
  type CatalogueReaderTexts,
} from './readCatalogue.ts'
import { readCatalogueFile } from './readCatalogueFile.ts'
import type { TableFault, TableShape } from './readTable.ts'
import { csv, stockCsv, testsCsv, tubesCsv } from './writeCatalogue.ts'

export const EDITABLE = ['tests', 'tubes', 'stock'] as const
/** The tables that can be changed row by row. */
export type EditableTable = (typeof EDITABLE)[number]

/** The tables with what stands in them now. */
export interface EditedTables {
  readonly catalogue: Catalogue
  readonly stock: readonly StockTube[]
}

/** A row as it is written in a file: what stands in each column, `''` for an empty cell. */
export type Cells = Readonly<Record<string, string>>

export const EDIT_SHAPES = {
  tests: TESTS_SHAPE,
  tubes: TUBES_SHAPE,
  stock: STOCK_SHAPE,
} as const satisfies Readonly<Record<EditableTable, TableShape>>

/** Any column of them. */
export type EditColumn = (typeof EDIT_SHAPES)[EditableTable]['columns'][number]

/** Every row of a table as cells, in its order. */
export function cellsOf(table: EditableTable, tables: EditedTables): readonly Cells[] {
  const { data } = Papa.parse<Record<string, string>>(csvOf(table, tables), {
    header: true,
    delimiter: ',',
    skipEmptyLines: true,
  })
  return data.map((row) =>
    Object.fromEntries(Object.entries(row).map(([column, cell]) => [column, plainCell(cell)])),
  )
}

/** A row of no table yet, with what most rows say. */
export function blankCells(table: EditableTable): Cells {
  const usual: Cells = { sharing: 'open', kind: 'evacuated', fillsBy: 'vacuum', additive: 'plain' }
  return Object.fromEntries(
    EDIT_SHAPES[table].columns.map((column) => [column, usual[column] ?? '']),
  )
}

/**
 * The tables with one row put in the place of another, read as the import reads a file: the same checks, in the same
 * words. Nothing is taken over while anything is wrong.
 * @param at place of the row from 0; the number of rows for a new one
 * @param cells `undefined` takes the row out
 */
export function withRow(
  table: EditableTable,
  tables: EditedTables,
  at: number,
  cells: Cells | undefined,
  texts: CatalogueReaderTexts,
): Result<EditedTables, TableFault> {
  const rows = cellsOf(table, tables).toSpliced(at, 1, ...(cells ? [cells] : []))
  // A stock may be empty; a file of none is a mistake.
  if (table === 'stock' && rows.length === 0) return ok({ ...tables, stock: [] })
  const text = csv(EDIT_SHAPES[table].columns, rows)
  if (table === 'stock') {
    const stock = readStock(text, tables.catalogue.tubes, texts)
    return stock.ok ? ok({ ...tables, stock: stock.value }) : stock
  }
  const catalogue = readCatalogueFile(tables.catalogue, text, texts)
  return catalogue.ok ? ok({ ...tables, catalogue: catalogue.value }) : catalogue
}

function csvOf(table: EditableTable, { catalogue, stock }: EditedTables): string {
  if (table === 'stock') return stockCsv(stock)
  return table === 'tests' ? testsCsv(catalogue.tests) : tubesCsv(catalogue.tubes)
}
