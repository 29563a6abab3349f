import type { BloodLimits } from '../../../core/bloodLimit/bloodLimits.ts'
import type { Catalogue, StockTube } from '../../../core/catalogue/catalogue.ts'
import { readStock, readTests, readTubes, type Reading } from './readCatalogue.ts'
import { readBloodLimits, readNorms, type JsonReading } from './readJson.ts'

/** The texts of the files under `data/catalogue`. */
export interface CatalogueTexts {
  readonly tests: string
  readonly tubes: string
  readonly stock: string
  readonly norms: string
  readonly bloodLimits: string
}

export interface SiteCatalogue {
  readonly catalogue: Catalogue
  readonly stock: readonly StockTube[]
  readonly bloodLimits: BloodLimits
}

/** Reads the site's files. Throws an Error that names file, row and column of the first fault. */
export function siteCatalogue(texts: CatalogueTexts): SiteCatalogue {
  const tubes = rows(readTubes(texts.tubes))
  return {
    catalogue: {
      version: '1',
      tests: rows(readTests(texts.tests)),
      tubes,
      norms: value('norms.json', readNorms(texts.norms)),
    },
    stock: rows(readStock(texts.stock, tubes)),
    bloodLimits: value('bloodLimits.json', readBloodLimits(texts.bloodLimits)),
  }
}

function rows<T>({ rows: read, faults: [fault] }: Reading<T>): readonly T[] {
  if (fault) throw new Error(`${fault.table}.csv, row ${fault.row}, ${fault.column}: ${fault.text}`)
  return read
}

function value<T>(file: string, reading: JsonReading<T>): T {
  if (reading.ok) return reading.value
  throw new Error(reading.faults.map(({ place, text }) => `${file}, ${place}: ${text}`).join('\n'))
}
