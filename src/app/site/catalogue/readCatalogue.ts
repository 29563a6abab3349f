import { ADDITIVES, type Additive } from '../../../core/catalogue/additives.ts'
import type { StockTube, TestRow, TubeRow } from '../../../core/catalogue/catalogue.ts'
import { catalogueFaults, stockFaults } from '../../../core/catalogue/catalogueFaults.ts'
import { HANDLING, type Handling } from '../../../core/catalogue/handling.ts'
import { readTable, type RowReader, type TableFault, type TableShape } from './readTable.ts'
import { readSpecimen } from './specimenWords.ts'

export const TESTS_SHAPE = {
  table: 'tests',
  columns: [
    'code',
    'name',
    'aliases',
    'specimen',
    'least_mL',
    'preferred_mL',
    'sharing',
    'handling',
    'fasting',
    'timeLimit_min',
    'timeLimitHeparin_min',
    'loinc',
    'localCode',
    'source',
  ],
  optional: ['aliases', 'timeLimit_min', 'timeLimitHeparin_min', 'loinc', 'localCode'],
} as const satisfies TableShape

export const TUBES_SHAPE = {
  table: 'tubes',
  columns: [
    'code',
    'name',
    'additive',
    'nominal_mL',
    'inner_mL',
    'leastFill_pct',
    'inversionsMin',
    'inversionsMax',
    'clot_min',
    'closure',
    'localCode',
    'source',
  ],
  optional: ['clot_min', 'closure', 'localCode'],
} as const satisfies TableShape

export const STOCK_SHAPE = {
  table: 'stock',
  columns: ['tubeCode', 'lot', 'expires', 'count'],
} as const satisfies TableShape

/** What came of reading: rows when there are no faults, and every fault by table, row and column. */
export interface Reading<T> {
  readonly rows: readonly T[]
  readonly faults: readonly TableFault[]
}

/** Reads `tests.csv`. */
export function readTests(text: string): Reading<TestRow> {
  const { rows, faults } = readTable(text, TESTS_SHAPE, testRow)
  return finished(rows, faults, catalogueFaults({ tests: rows, tubes: [] }))
}

/** Reads `tubes.csv`. */
export function readTubes(text: string): Reading<TubeRow> {
  const { rows, faults } = readTable(text, TUBES_SHAPE, tubeRow)
  return finished(rows, faults, catalogueFaults({ tests: [], tubes: rows }))
}

/** Reads `stock.csv` against the tubes of the catalogue. */
export function readStock(text: string, tubes: readonly TubeRow[]): Reading<StockTube> {
  const { rows, faults } = readTable(text, STOCK_SHAPE, (row) => ({
    tubeCode: row.text('tubeCode'),
    lot: row.text('lot'),
    expires: row.text('expires'),
    count: row.number('count'),
  }))
  return finished(rows, faults, stockFaults(rows, { tubes }))
}

/** Faults of meaning are added unless the cell already has a fault of reading. */
function finished<T>(
  rows: readonly T[],
  read: readonly TableFault[],
  meant: readonly TableFault[],
): Reading<T> {
  const place = (fault: TableFault): string => `${fault.row}/${fault.column}`
  const known = new Set(read.map(place))
  const faults = [...read, ...meant.filter((fault) => !known.has(place(fault)))]
  return { rows: faults.length === 0 ? rows : [], faults: faults.sort((a, b) => a.row - b.row) }
}

function testRow(row: RowReader): TestRow {
  const { needs, unknown } = readSpecimen(row.text('specimen'))
  if (unknown.length > 0) row.fault('specimen', `"${unknown.join('|')}" is not a known specimen.`)
  const optional = {
    ...number('timeLimit_min', row),
    ...number('timeLimitHeparin_min', row),
    ...word('loinc', row),
    ...word('localCode', row),
  }
  return {
    code: row.text('code'),
    name: row.text('name'),
    aliases: row.list('aliases'),
    accepts: needs,
    least_mL: row.number('least_mL'),
    preferred_mL: row.number('preferred_mL'),
    sharing: row.text('sharing'),
    handling: row.list('handling').filter((name) => isHandling(name, row)),
    fasting: yesNo('fasting', row),
    ...optional,
    source: row.text('source'),
  }
}

function tubeRow(row: RowReader): TubeRow {
  return {
    code: row.text('code'),
    name: row.text('name'),
    additive: additive(row),
    nominal_mL: row.number('nominal_mL'),
    inner_mL: row.number('inner_mL'),
    leastFill_pct: row.number('leastFill_pct'),
    inversionsMin: row.number('inversionsMin'),
    inversionsMax: row.number('inversionsMax'),
    ...number('clot_min', row),
    closure: row.text('closure'),
    ...word('localCode', row),
    source: row.text('source'),
  }
}

function number<K extends string>(column: K, row: RowReader): { [P in K]?: number } {
  const value = row.optionalNumber(column)
  return value === undefined ? {} : ({ [column]: value } as { [P in K]?: number })
}

function word<K extends string>(column: K, row: RowReader): { [P in K]?: string } {
  const value = row.text(column)
  return value === '' ? {} : ({ [column]: value } as { [P in K]?: string })
}

function yesNo(column: string, row: RowReader): boolean {
  const cell = row.text(column).toLowerCase()
  if (cell !== '' && cell !== 'yes' && cell !== 'no') row.fault(column, 'Write yes, no or nothing.')
  return cell === 'yes'
}

function additive(row: RowReader): Additive {
  const cell = row.text('additive')
  const known = ADDITIVES.find((name) => name === cell)
  if (!known) row.fault('additive', `"${cell}" is not a known additive.`)
  return known ?? 'plain'
}

function isHandling(name: string, row: RowReader): name is Handling {
  const known = HANDLING.some((handling) => handling === name)
  if (!known) row.fault('handling', `"${name}" is not known; write ${HANDLING.join(', ')}.`)
  return known
}
