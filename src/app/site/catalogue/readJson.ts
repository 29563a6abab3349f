import * as v from 'valibot'
import { faulty, ok, type Result } from '../../../core/basics/result.ts'
import type { BloodLimits } from '../../../core/bloodLimit/bloodLimits.ts'
import type { Catalogue, StockTube } from '../../../core/catalogue/catalogue.ts'
import { catalogueFaults } from '../../../core/catalogue/catalogueFaults.ts'
import type { Norms } from '../../../core/catalogue/norms.ts'
import type { NeedleSet, Order, Patient, Preparation } from '../../../core/order/order.ts'
import type { TableFault } from './readTable.ts'
import { BLOOD_LIMITS_SCHEMA, CATALOGUE_SCHEMA, NORMS_SCHEMA, ORDER_SCHEMA } from './schemas.ts'
import { errorText } from '../../../core/basics/errorText.ts'

/** What a JSON file says, or every fault in it with the place. */
export type JsonReading<T> = Result<T, { readonly place: string; readonly text: string }>

export interface OrderFile {
  readonly order: Order
  readonly patient: Patient
  readonly preparation: Preparation
  readonly needleSet: NeedleSet
  readonly stock?: readonly StockTube[]
  readonly today?: string
  readonly bodyTemperature_C?: number
}

export const readNorms = (text: string): JsonReading<Norms> => readJson(text, NORMS_SCHEMA)

export const readBloodLimits = (text: string): JsonReading<BloodLimits> =>
  readJson(text, BLOOD_LIMITS_SCHEMA)

export const readOrderFile = (text: string): JsonReading<OrderFile> => readJson(text, ORDER_SCHEMA)

/** Reads a catalogue in JSON; faults carry row and column like those of the CSV tables. */
export function readCatalogueJson(text: string): {
  readonly catalogue?: Pick<Catalogue, 'version' | 'tests' | 'tubes'>
  readonly faults: readonly TableFault[]
} {
  const reading = readJson(text, CATALOGUE_SCHEMA)
  if (!reading.ok)
    return { faults: reading.faults.map(({ place, text: t }) => tableFault(place, t)) }
  const faults = catalogueFaults(reading.value)
  return faults.length > 0 ? { faults } : { catalogue: reading.value, faults }
}

function readJson<S extends v.GenericSchema>(
  text: string,
  schema: S,
): JsonReading<v.InferOutput<S>> {
  let data: unknown
  try {
    data = JSON.parse(text.replace(/^\uFEFF/, ''))
  } catch (error) {
    const why = errorText(error)
    return faulty([{ place: '', text: `Not valid JSON: ${why}` }])
  }
  const result = v.safeParse(schema, data)
  if (result.success) return ok(result.output)
  return faulty(
    result.issues.map((issue) => ({ place: v.getDotPath(issue) ?? '', text: issue.message })),
  )
}

/** `tests.3.least_mL` is row 4, column least_mL of the tests. */
function tableFault(place: string, text: string): TableFault {
  const [table, index, ...column] = place.split('.')
  const row = index === undefined ? 0 : Number(index) + 1
  return { table: table === 'tubes' ? 'tubes' : 'tests', row, column: column.join('.'), text }
}
