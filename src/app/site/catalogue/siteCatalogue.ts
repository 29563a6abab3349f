import type { Result } from '../../../core/basics/result.ts'
import type { BloodLimits } from '../../../core/bloodLimit/bloodLimits.ts'
import type { Laboratory } from '../../../core/catalogue/laboratories.ts'
import type { Catalogue, StockTube } from '../../../core/catalogue/catalogue.ts'
import {
  readStock,
  readTests,
  readTubes,
  type CatalogueReaderTexts,
  type TableReading,
} from './readCatalogue.ts'
import {
  readBloodLimits,
  readLaboratories,
  readNorms,
  readPreferences,
  readSearch,
  readSeries,
  type JsonReading,
} from './readJson.ts'

/** The contents of the files under `data/catalogue`. */
export interface CatalogueFiles {
  readonly tests: string
  readonly tubes: string
  readonly stock: string
  readonly norms: string
  readonly bloodLimits: string
  readonly preferences: string
  readonly series: string
  readonly search: string
  readonly laboratories: string
}

export interface SiteCatalogue {
  readonly catalogue: Catalogue
  readonly stock: readonly StockTube[]
  readonly bloodLimits: BloodLimits
  readonly laboratories: readonly Laboratory[]
}

/** Reads the site's files. Throws an Error that names file, row and column of the first fault. */
export function siteCatalogue(files: CatalogueFiles, texts: CatalogueReaderTexts): SiteCatalogue {
  const tubes = rows(readTubes(files.tubes, texts))
  const tests = rows(readTests(files.tests, texts))
  const { series, doses } = value('series.json', readSeries(files.series, tests, texts))
  return {
    catalogue: {
      version: '1',
      tests,
      tubes,
      norms: value('norms.json', readNorms(files.norms, texts)),
      preferences: value('preferences.json', readPreferences(files.preferences, texts)).preferences,
      series,
      doses,
      search: value('search.json', readSearch(files.search, tests, texts)),
    },
    laboratories: value('laboratories.json', readLaboratories(files.laboratories, tests, texts)),
    stock: rows(readStock(files.stock, tubes, texts)),
    bloodLimits: value('bloodLimits.json', readBloodLimits(files.bloodLimits, texts)),
  }
}

const rows = <T>(reading: TableReading<T>): readonly T[] =>
  whole(reading, ({ table, row, column, text }) => `${table}.csv, row ${row}, ${column}: ${text}`)

const value = <T>(file: string, reading: JsonReading<T>): T =>
  whole(reading, ({ place, text }) => `${file}, ${place}: ${text}`)

function whole<T, F>(reading: Result<T, F>, where: (fault: F) => string): T {
  if (reading.ok) return reading.value
  throw new Error(reading.faults.map(where).join('\n'))
}
