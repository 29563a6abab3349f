import { ok, type Result } from '../../../core/basics/result.ts'
import type { Catalogue } from '../../../core/catalogue/catalogue.ts'
import { searchWordsFor } from '../../../core/catalogue/searchWords.ts'
import { seriesFor } from '../../../core/catalogue/seriesFaults.ts'
import { readTests, readTubes, type CatalogueReaderTexts } from './readCatalogue.ts'
import { readCatalogueJson } from './readJson.ts'
import type { TableFault } from './readTable.ts'

/**
 * The catalogue in use with what the text of one file puts in its place: CSV of tests or of tubes, or JSON of both.
 * Nothing is taken over in part: any fault refuses the file.
 */
export function readCatalogueFile(
  current: Catalogue,
  text: string,
  texts: CatalogueReaderTexts,
): Result<Catalogue, TableFault> {
  const reading = readTables(text, texts)
  if (!reading.ok) return reading
  const taken = { ...current, ...reading.value }
  // Series and search words of tests that this catalogue does not have cannot be ordered.
  return ok({
    ...taken,
    ...seriesFor(taken, taken.tests),
    ...(taken.search && { search: searchWordsFor(taken.search, taken.tests) }),
  })
}

type Tables = Partial<
  Pick<Catalogue, 'version' | 'tests' | 'tubes' | 'series' | 'doses' | 'search'>
>

function readTables(text: string, texts: CatalogueReaderTexts): Result<Tables, TableFault> {
  if (text.trimStart().startsWith('{')) return readCatalogueJson(text, texts)
  const heading = text.slice(0, text.indexOf('\n') < 0 ? undefined : text.indexOf('\n'))
  if (/\badditive\b/.test(heading)) {
    const tubes = readTubes(text, texts)
    return tubes.ok ? ok({ tubes: tubes.value }) : tubes
  }
  const tests = readTests(text, texts)
  return tests.ok ? ok({ tests: tests.value }) : tests
}
