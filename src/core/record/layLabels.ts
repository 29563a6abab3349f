import { textWidth_em } from './textWidth.ts'

/** A word beside a mark: where its mark is along the ruler, and what it says. */
export interface Wanted {
  readonly seq: number
  readonly x: number
  readonly text: string
  readonly isLoud: boolean
}

export interface LaidWord extends Wanted {
  readonly left: number
  /** Row from 0, the nearest to the ruler. */
  readonly row: number
}

const GAP = 6

/**
 * Words in rows so that none covers another or the line that leads to another: from the last to the first, each in the
 * nearest row in which it ends before everything that is in that row and beyond. What would end beyond the width is
 * moved back, and what is wider is cut.
 */
export function layLabels(
  wanted: readonly Wanted[],
  width: number,
  size: number,
): readonly LaidWord[] {
  const rows: number[] = []
  const laid: LaidWord[] = []
  for (const word of [...wanted].sort((a, b) => b.x - a.x || b.seq - a.seq)) {
    const text = fitted(word.text, width / size)
    const room = textWidth_em(text) * size + GAP
    const left = Math.max(0, Math.min(word.x, width - room))
    const free = (row: number): boolean => rows.slice(row).every((taken) => left + room <= taken)
    let row = 0
    while (!free(row)) row += 1
    rows[row] = Math.min(left, word.x)
    for (let r = 0; r < row; r += 1) rows[r] = Math.min(rows[r] ?? Infinity, word.x)
    laid.push({ ...word, text, left, row })
  }
  return laid.reverse()
}

function fitted(text: string, most_em: number): string {
  if (textWidth_em(text) <= most_em) return text
  const letters = [...text]
  while (letters.length > 0 && textWidth_em(`${letters.join('')}…`) > most_em) letters.pop()
  return `${letters.join('')}…`
}
