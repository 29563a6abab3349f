import type { TubesOfDraw } from '../../app/view/benchViewTypes.ts'
import type { BenchRow } from '../../core/bench/benchBoard.ts'

export const rowKey = ({ specimen }: BenchRow): string => `${specimen.drawId} ${specimen.tubeId}`

/** The tubes of rows by their draws. */
export function byDraw(rows: readonly BenchRow[]): readonly TubesOfDraw[] {
  const found = new Map<string, string[]>()
  for (const { specimen } of rows) {
    const { drawId, tubeId } = specimen
    found.set(drawId, [...(found.get(drawId) ?? []), tubeId])
  }
  return [...found].map(([drawId, tubeIds]) => ({ drawId, tubeIds }))
}
