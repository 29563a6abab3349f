import Papa from 'papaparse'
import { DAYS, NUMBERS, UNSEEN, WORDS } from './bits.ts'
import type { Seeded } from './seeded.ts'

/** A table in CSV with cells, rows or columns swapped, doubled, taken out or filled with something else. */
export function mutateCells(text: string, random: Seeded): string {
  const rows = Papa.parse<string[]>(text.trimEnd()).data.map((cells) => [...cells])
  const row = (): string[] => rows[random.below(rows.length)] ?? []
  const columns = rows[0]?.length ?? 0
  const column = random.below(columns)
  const put = (cells: string[], place: number, value: string): void => {
    if (place < cells.length) cells[place] = value
  }
  const cells = row()
  switch (random.below(9)) {
    case 0: {
      const other = random.below(columns)
      const kept = cells[column] ?? ''
      put(cells, column, cells[other] ?? '')
      put(cells, other, kept)
      break
    }
    case 1: {
      const other = row()
      const kept = cells[column] ?? ''
      put(cells, column, other[column] ?? '')
      put(other, column, kept)
      break
    }
    case 2:
      put(cells, column, random.one(NUMBERS))
      break
    case 3:
      put(cells, column, random.one(DAYS))
      break
    case 4:
      put(cells, column, `${cells[column] ?? ''}${random.one(UNSEEN)}`)
      break
    case 5:
      put(cells, column, random.one(WORDS))
      break
    case 6:
      rows.push([...row()])
      break
    case 7:
      for (const each of rows) each.splice(column, 1)
      break
    default:
      put(cells, column, row()[column] ?? '')
  }
  return `${Papa.unparse(rows, { newline: '\n' })}\n`
}
