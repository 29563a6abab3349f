import Papa from 'papaparse'
import { fillText, type Text, type TextValues } from '../../../core/basics/fillText.ts'
import type { Salvaged } from '../../../core/basics/result.ts'
import { shownText } from '../../../core/text/shownText.ts'
import { plainCell } from './formulaCells.ts'
import { tidyText } from './tidyTexts.ts'
import type { SiteTexts, TableFaultCode } from '../siteTexts.ts'

/** A fault in a table read from text. `row` counts rows of data from 1, without the heading. */
export interface TableFault {
  readonly table: 'tests' | 'tubes' | 'stock' | 'series' | 'search'
  readonly row: number
  readonly column: string
  readonly text: string
}

/** One row of cells by column, and ways to read them that note what cannot be read. */
export interface RowReader {
  text(column: string): string
  number(column: string): number
  /** `undefined` for an empty cell. */
  optionalNumber(column: string): number | undefined
  list(column: string): string[]
  fault(column: string, text: Text, values?: TextValues): void
}

export interface TableShape {
  readonly table: TableFault['table']
  readonly columns: readonly string[]
  /** Columns that may be left out of the file. */
  readonly optional?: readonly string[]
}

const MOST_CELLS = 200_000
/** More than any table here has; a file with more is something else. */
const MOST_COLUMNS = 100
/** Longer than any source that stands in a cell. */
const LONGEST_CELL = 2000

/** What the reader of CSV finds wrong with quotation marks, by its own code. */
const QUOTE_FAULTS: Readonly<Partial<Record<Papa.ParseError['code'], TableFaultCode>>> = {
  MissingQuotes: 'openQuote',
  InvalidQuotes: 'strayQuote',
}

/** Reads CSV text row by row. Missing and unknown columns, ragged rows and unreadable numbers become faults. */
export function readTable<T>(
  text: string,
  shape: TableShape,
  texts: SiteTexts['tables'],
  readRow: (row: RowReader) => T,
): Salvaged<readonly T[], TableFault> {
  const { table, columns, optional = [] } = shape
  const faults: TableFault[] = []
  const fault = (row: number, column: string, what: Text, values?: TextValues): void => {
    faults.push({ table, row, column, text: fillText(what, values) })
  }
  const parsed = Papa.parse<string[]>(text.replace(/^\uFEFF/, '').trimEnd(), { delimiter: '' })
  const [heading = [], ...data] = parsed.data
  const names = heading.map((name) => name.trim())
  if (names.length > MOST_COLUMNS || names.length * data.length > MOST_CELLS) {
    fault(0, '', texts.tooLarge)
    return { value: [], faults }
  }
  for (const error of parsed.errors) {
    // A single column has no delimiter to find; that shows as missing columns below.
    if (error.code === 'UndetectableDelimiter') continue
    fault(error.row ?? 0, '', texts[QUOTE_FAULTS[error.code] ?? 'unreadableRow'], {
      why: error.message,
    })
  }
  for (const name of columns) {
    if (!names.includes(name) && !optional.includes(name)) fault(0, name, texts.columnMissing)
  }
  const places = new Map<string, number>()
  for (const [place, name] of names.entries()) {
    if (!columns.includes(name)) fault(0, shortened(name), texts.columnUnknown)
    if (places.has(name)) fault(0, shortened(name), texts.columnTwice)
    places.set(name, place)
  }
  if (faults.length === 0 && data.length === 0) fault(0, '', texts.noRows)
  if (faults.length > 0) return { value: [], faults }
  const rows = data.map((cells, index) => {
    const row = index + 1
    if (cells.length !== names.length) {
      fault(row, '', texts.rowLength, { cells: cells.length, columns: names.length })
    }
    const inRow: RowReader['fault'] = (column, what, values) => fault(row, column, what, values)
    if (cells.some((cell) => cell.length > LONGEST_CELL)) {
      fault(row, '', texts.tooLong)
    }
    return readRow(rowReader(cells, places, texts, inRow))
  })
  return { value: rows, faults }
}

function rowReader(
  cells: readonly string[],
  places: ReadonlyMap<string, number>,
  texts: SiteTexts['tables'],
  fault: RowReader['fault'],
): RowReader {
  const text = (column: string): string =>
    plainCell(tidyText((cells[places.get(column) ?? -1] ?? '').slice(0, LONGEST_CELL)))
  const optionalNumber = (column: string): number | undefined => {
    const cell = text(column)
    if (cell === '') return undefined
    if (/^[+-]?(?:\d+(?:\.\d*)?|\.\d+)$/.test(cell)) return Number(cell)
    fault(column, texts.notANumber, { cell: shortened(cell) })
    return undefined
  }
  return {
    text,
    optionalNumber,
    number: (column) => {
      if (text(column) === '') fault(column, texts.numberMissing)
      return optionalNumber(column) ?? NaN
    },
    list: (column) =>
      text(column)
        .split(';')
        .map((part) => part.trim())
        .filter((part) => part !== ''),
    fault,
  }
}

/** What a person is shown of a cell: what can be seen, and no more than a line. */
const shortened = (cell: string): string => shownText(cell.slice(0, 60))
