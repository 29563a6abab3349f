import type { Catalogue, TestRow, TubeRow } from '../../../core/catalogue/catalogue.ts'
import { readTests, readTubes } from './readCatalogue.ts'
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
export function previewCatalogue(current: Catalogue, file: CatalogueFile): CataloguePreview {
  const read = readFile(file)
  const next: Catalogue = {
    ...current,
    version: read.version ?? current.version,
    tests: read.tests ?? current.tests,
    tubes: read.tubes ?? current.tubes,
  }
  const good = read.faults.length === 0
  return {
    file: file.name,
    faults: read.faults,
    tests: tableChanges<TestRow>(current.tests, good ? next.tests : current.tests),
    tubes: tableChanges<TubeRow>(current.tubes, good ? next.tubes : current.tubes),
    ...(good ? { next } : {}),
  }
}

interface FileContent {
  readonly version?: string
  readonly tests?: readonly TestRow[]
  readonly tubes?: readonly TubeRow[]
  readonly faults: readonly TableFault[]
}

function readFile({ text }: CatalogueFile): FileContent {
  if (text.trimStart().startsWith('{')) {
    const { catalogue, faults } = readCatalogueJson(text)
    return { ...catalogue, faults }
  }
  const heading = text.slice(0, text.indexOf('\n') < 0 ? undefined : text.indexOf('\n'))
  if (/\badditive\b/.test(heading)) {
    const { rows, faults } = readTubes(text)
    return { tubes: rows, faults }
  }
  const { rows, faults } = readTests(text)
  return { tests: rows, faults }
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
