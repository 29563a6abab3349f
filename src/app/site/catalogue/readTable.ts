import Papa from 'papaparse'

/** A fault in a table read from text. `row` counts rows of data from 1, without the heading. */
export interface TableFault {
  readonly table: 'tests' | 'tubes' | 'stock'
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
  fault(column: string, text: string): void
}

export interface TableShape {
  readonly table: TableFault['table']
  readonly columns: readonly string[]
  /** Columns that may be left out of the file. */
  readonly optional?: readonly string[]
}

const MOST_CELLS = 200_000

/** Reads CSV text row by row. Missing and unknown columns, ragged rows and unreadable numbers become faults. */
export function readTable<T>(
  text: string,
  shape: TableShape,
  readRow: (row: RowReader) => T,
): { readonly rows: T[]; readonly faults: TableFault[] } {
  const { table, columns, optional = [] } = shape
  const faults: TableFault[] = []
  const fault = (row: number, column: string, what: string): void => {
    faults.push({ table, row, column, text: what })
  }
  const parsed = Papa.parse<string[]>(text.replace(/^\uFEFF/, '').trimEnd(), { delimiter: '' })
  const [heading = [], ...data] = parsed.data
  const names = heading.map((name) => name.trim())
  if (names.length * data.length > MOST_CELLS) {
    fault(0, '', 'The file is too large for a catalog.')
    return { rows: [], faults }
  }
  for (const error of parsed.errors) {
    // A single column has no delimiter to find; that shows as missing columns below.
    if (error.code !== 'UndetectableDelimiter') fault(error.row ?? 0, '', error.message)
  }
  for (const name of columns) {
    if (!names.includes(name) && !optional.includes(name)) fault(0, name, 'The column is missing.')
  }
  for (const name of names) {
    if (!columns.includes(name)) fault(0, name, 'This column is not known.')
    if (names.indexOf(name) !== names.lastIndexOf(name)) fault(0, name, 'The column stands twice.')
  }
  if (faults.length > 0) return { rows: [], faults }
  const rows = data.map((cells, index) => {
    const row = index + 1
    if (cells.length !== names.length) {
      fault(row, '', `The row has ${cells.length} cells; the heading has ${names.length}.`)
    }
    return readRow(rowReader(cells, names, (column, what) => fault(row, column, what)))
  })
  return { rows, faults }
}

function rowReader(
  cells: readonly string[],
  names: readonly string[],
  fault: (column: string, text: string) => void,
): RowReader {
  const text = (column: string): string => undefuse((cells[names.indexOf(column)] ?? '').trim())
  const optionalNumber = (column: string): number | undefined => {
    const cell = text(column)
    if (cell === '') return undefined
    if (/^[+-]?(\d+\.?\d*|\.\d+)$/.test(cell)) return Number(cell)
    fault(column, `"${cell}" is not a number.`)
    return undefined
  }
  return {
    text,
    optionalNumber,
    number: (column) => {
      if (text(column) === '') fault(column, 'A number is missing.')
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

/** Export puts an apostrophe before a cell that a spreadsheet would run; reading takes it off again. */
function undefuse(cell: string): string {
  return /^'[=+\-@\t\r]/.test(cell) ? cell.slice(1) : cell
}
