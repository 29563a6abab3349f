import type { Catalogue, TestRow, TubeRow } from '../../../core/catalogue/catalogue.ts'
import { defined } from '../../../core/basics/defined.ts'
import { ok, type Result } from '../../../core/basics/result.ts'
import { readTests, readTubes, type CatalogueReaderTexts } from './readCatalogue.ts'
import { readCatalogueJson } from './readJson.ts'
import type { TableFault } from './readTable.ts'

/** A file as it was chosen. */
export interface CatalogueFile {
  readonly name: string
  readonly text: string
}

/** What a table would become. Every entry names the row by its code. */
export interface TableChanges {
  readonly added: readonly string[]
  readonly removed: readonly string[]
  readonly changed: readonly { readonly code: string; readonly columns: readonly string[] }[]
}

/** What accepting would do. `next` is absent while there is any fault: nothing is taken over in part. */
export interface CataloguePreview {
  readonly file: string
  readonly faults: readonly TableFault[]
  readonly tests: TableChanges
  readonly tubes: TableChanges
  readonly next?: Catalogue
}

/** Reads one file, CSV of tests or tubes or JSON of both, against the catalogue in use. Changes nothing. */
export function previewCatalogue(
  current: Catalogue,
  file: CatalogueFile,
  texts: CatalogueReaderTexts,
): CataloguePreview {
  const read = readFile(file, texts)
  const next = read.ok ? { ...current, ...read.value } : undefined
  return defined({
    file: file.name,
    faults: read.ok ? [] : read.faults,
    tests: tableChanges<TestRow>(current.tests, (next ?? current).tests),
    tubes: tableChanges<TubeRow>(current.tubes, (next ?? current).tubes),
    next,
  })
}

type FileContent = Partial<Pick<Catalogue, 'version' | 'tests' | 'tubes'>>

function readFile(
  { text }: CatalogueFile,
  texts: CatalogueReaderTexts,
): Result<FileContent, TableFault> {
  if (text.trimStart().startsWith('{')) return readCatalogueJson(text, texts)
  const heading = text.slice(0, text.indexOf('\n') < 0 ? undefined : text.indexOf('\n'))
  if (/\badditive\b/.test(heading)) {
    const reading = readTubes(text, texts)
    return reading.ok ? ok({ tubes: reading.value }) : reading
  }
  const reading = readTests(text, texts)
  return reading.ok ? ok({ tests: reading.value }) : reading
}

function tableChanges<T extends { readonly code: string }>(
  before: readonly T[],
  after: readonly T[],
): TableChanges {
  const old = new Map(before.map((row) => [row.code, row]))
  const kept = new Set(after.map((row) => row.code))
  return {
    added: after.filter((row) => !old.has(row.code)).map((row) => row.code),
    removed: before.filter((row) => !kept.has(row.code)).map((row) => row.code),
    changed: after.flatMap((row) => {
      const columns = differing(old.get(row.code), row)
      return columns.length === 0 ? [] : [{ code: row.code, columns }]
    }),
  }
}

function differing<T extends object>(before: T | undefined, after: T): string[] {
  if (!before) return []
  const was = new Map<string, unknown>(Object.entries(before))
  const is = new Map<string, unknown>(Object.entries(after))
  const columns = new Set([...was.keys(), ...is.keys()])
  return [...columns].filter((key) => JSON.stringify(was.get(key)) !== JSON.stringify(is.get(key)))
}
