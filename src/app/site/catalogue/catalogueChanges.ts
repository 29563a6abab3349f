import type { Catalogue, TestRow, TubeRow } from '../../../core/catalogue/catalogue.ts'

/** What a table would become. Every entry names the row by its code. */
export interface TableChanges {
  readonly added: readonly string[]
  readonly removed: readonly string[]
  readonly changed: readonly { readonly code: string; readonly columns: readonly string[] }[]
}

export interface CatalogueChanges {
  readonly tests: TableChanges
  readonly tubes: TableChanges
}

/** What taking over another catalogue would change. */
export function catalogueChanges(current: Catalogue, next: Catalogue): CatalogueChanges {
  return {
    tests: tableChanges<TestRow>(current.tests, next.tests),
    tubes: tableChanges<TubeRow>(current.tubes, next.tubes),
  }
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
