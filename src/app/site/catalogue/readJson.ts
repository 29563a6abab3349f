import * as v from 'valibot'
import { faulty, ok, type Result } from '../../../core/basics/result.ts'
import type { BloodLimits } from '../../../core/bloodLimit/bloodLimits.ts'
import type { Catalogue, StockTube, TestRow } from '../../../core/catalogue/catalogue.ts'
import type { SeriesTables } from '../../../core/catalogue/seriesFaults.ts'
import { seriesFaults } from '../../../core/catalogue/seriesFaults.ts'
import { unknownInSearch, type SearchWords } from '../../../core/catalogue/searchWords.ts'
import type { TubePreference } from '../../../core/catalogue/preferences.ts'
import { laboratoryFaults, type Laboratory } from '../../../core/catalogue/laboratories.ts'
import type { Norms } from '../../../core/catalogue/norms.ts'
import type { SkinPlace } from '../../../core/order/collecting.ts'
import type { NeedleSet, Order, Patient, Preparation } from '../../../core/order/order.ts'
import type { TableFault } from './readTable.ts'
import {
  BLOOD_LIMITS_SCHEMA,
  CATALOGUE_SCHEMA,
  LABORATORIES_SCHEMA,
  NORMS_SCHEMA,
  ORDER_SCHEMA,
  PREFERENCES_SCHEMA,
  SEARCH_SCHEMA,
  SERIES_SCHEMA,
} from './schemas.ts'
import { fillText } from '../../../core/basics/fillText.ts'
import { jsonFaultSentence, parseJson } from '../../../core/text/parseJson.ts'
import type { Texts } from '../texts.ts'
import { issueText } from './issueText.ts'
import { tidyTexts } from './tidyTexts.ts'
import { tableFaults, type CatalogueReaderTexts } from './readCatalogue.ts'

type JsonTexts = Pick<Texts, 'site' | 'text'>

/** A fault in a JSON file and where it is. */
export interface PlaceFault {
  readonly place: string
  readonly text: string
}

/** What a JSON file says, or every fault in it with the place. */
export type JsonReading<T> = Result<T, PlaceFault>

export interface OrderFile {
  readonly order: Order
  readonly patient: Patient
  readonly preparation: Preparation
  readonly needleSet: NeedleSet
  readonly collecting?: SkinPlace
  readonly stock?: readonly StockTube[]
  readonly today?: string
  readonly bodyTemperature_C?: number
}

export const readNorms = (text: string, texts: JsonTexts): JsonReading<Norms> =>
  readJson(text, NORMS_SCHEMA, texts)

export const readPreferences = (
  text: string,
  texts: JsonTexts,
): JsonReading<{ readonly preferences: readonly TubePreference[] }> =>
  readJson(text, PREFERENCES_SCHEMA, texts)

export function readSeries(
  text: string,
  tests: readonly TestRow[],
  texts: CatalogueReaderTexts,
): JsonReading<SeriesTables> {
  const reading = readJson(text, SERIES_SCHEMA, texts)
  if (!reading.ok) return reading
  const { series, doses } = reading.value
  const faults = seriesFaults({ series, doses }, tests, texts.catalogue)
  return faults.length > 0
    ? faulty(faults.map((fault) => ({ place: `${fault.row}`, text: fault.text })))
    : ok({ series, doses })
}

/** Reads `search.json`: what tests are looked for by, every code of which must be a test. */
export function readSearch(
  text: string,
  tests: readonly TestRow[],
  texts: CatalogueReaderTexts,
): JsonReading<SearchWords> {
  const reading = readJson(text, SEARCH_SCHEMA, texts)
  if (!reading.ok) return reading
  const { common, names } = reading.value
  const unknown = unknownInSearch({ common, names }, tests)
  return unknown.length > 0
    ? faulty(unknown.map((code) => ({ place: code, text: unknownTest(code, texts) })))
    : ok({ common, names })
}

const unknownTest = (code: string, { catalogue }: CatalogueReaderTexts): string =>
  fillText(catalogue.faults.unknownTest, { code })

/** Reads `laboratories.json`: who does which tests, and how specimens get there. */
export function readLaboratories(
  text: string,
  tests: readonly TestRow[],
  texts: CatalogueReaderTexts,
): JsonReading<readonly Laboratory[]> {
  const reading = readJson(text, LABORATORIES_SCHEMA, texts)
  if (!reading.ok) return reading
  const { laboratories } = tidyTexts(reading.value)
  const faults = laboratoryFaults(laboratories, tests, texts.catalogue)
  return faults.length > 0
    ? faulty(faults.map(({ row, text: fault }) => ({ place: `${row}`, text: fault })))
    : ok(laboratories)
}

export const readBloodLimits = (text: string, texts: JsonTexts): JsonReading<BloodLimits> =>
  readJson(text, BLOOD_LIMITS_SCHEMA, texts)

export const readOrderFile = (text: string, texts: JsonTexts): JsonReading<OrderFile> =>
  readJson(text, ORDER_SCHEMA, texts)

/** Reads a catalogue in JSON; faults carry row and column like those of the CSV tables. */
export function readCatalogueJson(
  text: string,
  texts: CatalogueReaderTexts,
): Result<
  Pick<Catalogue, 'version' | 'tests' | 'tubes' | 'series' | 'doses' | 'search'>,
  TableFault
> {
  const reading = readJson(text, CATALOGUE_SCHEMA, texts)
  if (!reading.ok) return faulty(reading.faults.map((fault) => tableFault(fault.place, fault.text)))
  const tables = tidyTexts(reading.value)
  const { noRows } = texts.site.tables
  const empty = (['tests', 'tubes'] as const).filter((table) => tables[table].length === 0)
  const faults = [
    ...empty.map((table) => ({ table, row: 0, column: '', text: fillText(noRows) })),
    ...tableFaults(tables, texts),
    ...seriesFaults(tables, tables.tests, texts.catalogue),
    ...(tables.search ? unknownInSearch(tables.search, tables.tests) : []).map((code) => ({
      table: 'search' as const,
      row: 0,
      column: '',
      text: unknownTest(code, texts),
    })),
  ]
  return faults.length > 0 ? faulty(faults) : ok(tables)
}

function readJson<S extends v.GenericSchema>(
  text: string,
  schema: S,
  texts: JsonTexts,
): JsonReading<v.InferOutput<S>> {
  const plain = text.replace(/^\uFEFF/, '')
  const data = parseJson(plain)
  if (!data.ok) {
    return faulty(
      data.faults.map((fault) => {
        const why = jsonFaultSentence(fault, plain, texts.text.json)
        return { place: '', text: fillText(texts.site.json.notJson, { why }) }
      }),
    )
  }
  const result = v.safeParse(schema, data.value)
  if (result.success) return ok(result.output)
  return faulty(
    result.issues.map((issue) => ({
      place: v.getDotPath(issue) ?? '',
      text: issueText(issue, texts.site.json),
    })),
  )
}

/** `tests.3.least_mL` is row 4, column least_mL of the tests. */
function tableFault(place: string, text: string): TableFault {
  const [table, index, ...column] = place.split('.')
  const row = index === undefined ? 0 : Number(index) + 1
  const known = (['tubes', 'series', 'search'] as const).find((name) => name === table)
  return { table: known ?? 'tests', row, column: column.join('.'), text }
}
