import { defined } from '../../../core/basics/defined.ts'
import type { Text } from '../../../core/basics/fillText.ts'
import { faulty, ok, type Result, type Salvaged } from '../../../core/basics/result.ts'
import {
  ADDITIVES,
  TUBE_TRAITS,
  type Additive,
  type TubeTrait,
} from '../../../core/catalogue/additives.ts'
import {
  FILLS_BY,
  TUBE_KINDS,
  type Catalogue,
  type StockTube,
  type TestRow,
  type TubeRow,
} from '../../../core/catalogue/catalogue.ts'
import { catalogueFaults, stockFaults } from '../../../core/catalogue/catalogueFaults.ts'
import { nameFaults } from '../../../core/catalogue/nameFaults.ts'
import { HANDLING, type Handling } from '../../../core/catalogue/handling.ts'
import { readTable, type RowReader, type TableFault, type TableShape } from './readTable.ts'
import { readSpecimen } from './specimenWords.ts'
import type { Texts } from '../texts.ts'
import { lotFaults } from './lotFaults.ts'

/** The words for what a reader of the catalogue finds wrong. */
export type CatalogueReaderTexts = Pick<Texts, 'catalogue' | 'site' | 'text'>

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
    'transfusion',
    'capillary',
    'neverIn',
    'handling',
    'fasting',
    'timeLimit_min',
    'timeLimitHeparin_min',
    'timing',
    'loinc',
    'localCode',
    'source',
  ],
  optional: [
    'aliases',
    'transfusion',
    'capillary',
    'neverIn',
    'timeLimit_min',
    'timeLimitHeparin_min',
    'timing',
    'loinc',
    'localCode',
  ],
} as const satisfies TableShape

export const TUBES_SHAPE = {
  table: 'tubes',
  columns: [
    'code',
    'name',
    'additive',
    'nominal_mL',
    'inner_mL',
    'kind',
    'fillsBy',
    'dead_mL',
    'leastFill_pct',
    'partialFill',
    'inversionsMin',
    'inversionsMax',
    'clot_min',
    'closure',
    'localCode',
    'source',
  ],
  optional: ['kind', 'fillsBy', 'dead_mL', 'partialFill', 'clot_min', 'closure', 'localCode'],
} as const satisfies TableShape

export const STOCK_SHAPE = {
  table: 'stock',
  columns: ['tubeCode', 'lot', 'expires', 'count'],
} as const satisfies TableShape

/** The rows of a table, or every fault in it by table, row and column. */
export type TableReading<T> = Result<readonly T[], TableFault>

/** Reads `tests.csv`. */
export function readTests(text: string, texts: CatalogueReaderTexts): TableReading<TestRow> {
  const { tables } = texts.site
  const read = readTable(text, TESTS_SHAPE, tables, (row) => testRow(row, texts))
  return finished(read, (tests) => tableFaults({ tests, tubes: [] }, texts))
}

/** Reads `tubes.csv`. */
export function readTubes(text: string, texts: CatalogueReaderTexts): TableReading<TubeRow> {
  const { tables } = texts.site
  const read = readTable(text, TUBES_SHAPE, tables, (row) => tubeRow(row, texts))
  return finished(read, (tubes) => tableFaults({ tests: [], tubes }, texts))
}

/** Reads `stock.csv` against the tubes of the catalogue. */
export function readStock(
  text: string,
  tubes: readonly TubeRow[],
  texts: CatalogueReaderTexts,
): TableReading<StockTube> {
  const read = readTable(text, STOCK_SHAPE, texts.site.tables, (row) => ({
    tubeCode: row.text('tubeCode'),
    lot: row.text('lot'),
    expires: row.text('expires'),
    count: row.number('count'),
  }))
  return finished(read, (stock) => [
    ...stockFaults(stock, { tubes }, texts.catalogue),
    ...lotFaults(stock, texts),
  ])
}

/** Everything that is wrong with what the tables say and with what things are called in them. */
export function tableFaults(
  tables: Pick<Catalogue, 'tests' | 'tubes'>,
  texts: CatalogueReaderTexts,
): readonly TableFault[] {
  return [...catalogueFaults(tables, texts.catalogue), ...nameFaults(tables, texts)]
}

/** Faults of meaning are added unless the cell already has a fault of reading. */
function finished<T>(
  { value: rows, faults: read }: Salvaged<readonly T[], TableFault>,
  meaning: (rows: readonly T[]) => readonly TableFault[],
): TableReading<T> {
  const place = (fault: TableFault): string => `${fault.row}/${fault.column}`
  const known = new Set(read.map(place))
  const faults = [...read, ...meaning(rows).filter((fault) => !known.has(place(fault)))]
  return faults.length === 0 ? ok(rows) : faulty(faults.sort((a, b) => a.row - b.row))
}

function testRow(row: RowReader, texts: CatalogueReaderTexts): TestRow {
  const { tables } = texts.site
  const neverIn = row.list('neverIn').filter((cell): cell is TubeTrait => {
    const known = Object.keys(TUBE_TRAITS).includes(cell)
    if (!known) row.fault('neverIn', tables.unknownWord, { cell, known: KNOWN_TRAITS })
    return known
  })
  const { needs, unknown } = readSpecimen(row.text('specimen'), neverIn)
  if (unknown.length > 0) {
    row.fault('specimen', tables.unknownSpecimen, { cell: unknown.join('|') })
  }
  return defined({
    code: row.text('code'),
    name: row.text('name'),
    aliases: row.list('aliases'),
    accepts: needs,
    least_mL: row.number('least_mL'),
    preferred_mL: row.number('preferred_mL'),
    sharing: row.text('sharing'),
    transfusion: yesNo('transfusion', row, tables.yesNo) || undefined,
    notCapillary: isNo('capillary', row, tables.yesNo),
    neverIn: neverIn.length > 0 ? neverIn : undefined,
    handling: row.list('handling').filter((cell): cell is Handling => {
      const known = HANDLING.some((handling) => handling === cell)
      if (!known) row.fault('handling', tables.unknownWord, { cell, known: KNOWN_HANDLING })
      return known
    }),
    fasting: yesNo('fasting', row, tables.yesNo),
    timeLimit_min: row.optionalNumber('timeLimit_min'),
    timeLimitHeparin_min: row.optionalNumber('timeLimitHeparin_min'),
    timing: row.text('timing') || undefined,
    loinc: row.text('loinc') || undefined,
    localCode: row.text('localCode') || undefined,
    source: row.text('source'),
  })
}

const KNOWN_HANDLING = HANDLING.join(', ')
const KNOWN_TRAITS = Object.keys(TUBE_TRAITS).join(', ')

function tubeRow(row: RowReader, texts: CatalogueReaderTexts): TubeRow {
  return defined({
    code: row.text('code'),
    name: row.text('name'),
    additive: additiveOf(row, texts.catalogue.faults.unknownAdditive),
    nominal_mL: row.number('nominal_mL'),
    inner_mL: row.number('inner_mL'),
    kind: oneOf('kind', TUBE_KINDS, row, texts),
    fillsBy: oneOf('fillsBy', FILLS_BY, row, texts),
    dead_mL: row.optionalNumber('dead_mL') ?? 0,
    leastFill_pct: row.number('leastFill_pct'),
    partialFill: yesNo('partialFill', row, texts.site.tables.yesNo) || undefined,
    inversionsMin: row.number('inversionsMin'),
    inversionsMax: row.number('inversionsMax'),
    clot_min: row.optionalNumber('clot_min'),
    closure: row.text('closure'),
    localCode: row.text('localCode') || undefined,
    source: row.text('source'),
  })
}

/** One of the known words; the first of them for an empty cell. */
function oneOf<const T extends string>(
  column: string,
  known: readonly [T, ...T[]],
  row: RowReader,
  texts: CatalogueReaderTexts,
): T {
  const cell = row.text(column)
  const word = known.find((name) => name === cell)
  if (!word && cell !== '') {
    row.fault(column, texts.site.tables.unknownWord, { cell, known: known.join(', ') })
  }
  return word ?? known[0]
}

function yesNo(column: string, row: RowReader, otherwise: Text): boolean {
  const cell = row.text(column).toLowerCase()
  if (cell !== '' && cell !== 'yes' && cell !== 'no') row.fault(column, otherwise)
  return cell === 'yes'
}

/** An empty cell says yes. */
function isNo(column: string, row: RowReader, otherwise: Text): true | undefined {
  const cell = row.text(column).toLowerCase()
  if (cell !== '' && cell !== 'yes' && cell !== 'no') row.fault(column, otherwise)
  return cell === 'no' ? true : undefined
}

function additiveOf(row: RowReader, otherwise: Text): Additive {
  const additive = row.text('additive')
  const known = ADDITIVES.find((name) => name === additive)
  if (!known) row.fault('additive', otherwise, { additive })
  return known ?? 'plain'
}
