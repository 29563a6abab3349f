import type { BenchRow, Latest } from './benchBoard.ts'

/** Times that are told to the minute may differ by so much: two looks at the clock are never quite the same. */
const SAME_ms = 1000

/**
 * The rows of now, each as the object that stood before where it reads the same, and the very list of before where
 * nothing reads otherwise: what is shown of it need not be drawn again.
 */
export function keepRows(
  before: readonly BenchRow[],
  now: readonly BenchRow[],
): readonly BenchRow[] {
  const known = new Map(before.map((row) => [row.specimen, row]))
  const rows = now.map((row) => {
    const old = known.get(row.specimen)
    return old && readsSame(old, row) ? old : row
  })
  const isSame = rows.length === before.length && rows.every((row, i) => row === before[i])
  return isSame ? before : rows
}

function readsSame(a: BenchRow, b: BenchRow): boolean {
  return (
    a.step === b.step &&
    a.isDue === b.isDue &&
    a.clotsLonger === b.clotsLonger &&
    a.store === b.store &&
    isNear(a.due_ms, b.due_ms) &&
    a.spin?.g === b.spin?.g &&
    a.spin?.min === b.spin?.min &&
    a.spin?.temperature === b.spin?.temperature &&
    a.spin?.source === b.spin?.source &&
    a.limits.length === b.limits.length &&
    a.limits.every((limit, i) => isSameLimit(limit, b.limits[i]))
  )
}

const isSameLimit = (a: Latest, b: Latest | undefined): boolean =>
  a.of === b?.of && a.test === b.test && a.isOver === b.isOver && isNear(a.at_ms, b.at_ms)

/** `Infinity` is near itself alone. */
const isNear = (a: number, b: number): boolean => a === b || Math.abs(a - b) < SAME_ms
