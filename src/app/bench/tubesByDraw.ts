import type { BenchRow } from '../../core/bench/benchBoard.ts'
import type { TubesOfDraw } from '../view/benchViewTypes.ts'

/** The tubes of rows by their draws. */
export function tubesByDraw(rows: readonly BenchRow[]): readonly TubesOfDraw[] {
  const found = new Map<string, string[]>()
  for (const { specimen } of rows) {
    const { drawId, tubeId } = specimen
    found.set(drawId, [...(found.get(drawId) ?? []), tubeId])
  }
  return [...found].map(([drawId, tubeIds]) => ({ drawId, tubeIds }))
}
