import type { BenchRow } from './benchBoard.ts'

/** A moment of the bench that somebody is told of. It names nobody. */
export interface BenchDue {
  readonly key: string
  readonly drawId: string
  readonly kind: 'ready' | 'spinDone' | 'near' | 'over'
  readonly at_ms: number
}

/** A limit is told of so long before it passes, and no longer than a third of it: as at the chair. */
const NEAR_ms = 10 * 60_000

/** What there is to tell of these rows, past and to come. */
export function benchDues(rows: readonly BenchRow[]): readonly BenchDue[] {
  return rows.flatMap(({ specimen, step, due_ms, limits }): readonly BenchDue[] => {
    const { drawId, tubeId, off } = specimen
    const id = `${drawId} ${tubeId}`
    const [first] = limits
    const near_ms = first ? Math.max(0, first.at_ms - off.at_ms) / 3 : 0
    const dues: BenchDue[] = []
    if (step === 'clot' || step === 'spin')
      dues.push({ drawId, key: `${id} spin`, kind: 'ready', at_ms: due_ms })
    if (step === 'spinning')
      dues.push({
        drawId,
        key: `${id} done ${specimen.way.spins.length}`,
        kind: 'spinDone',
        at_ms: due_ms,
      })
    if (first) {
      const at_ms = first.at_ms
      dues.push({
        drawId,
        key: `${id} near ${first.of}`,
        kind: 'near',
        at_ms: at_ms - Math.min(NEAR_ms, near_ms),
      })
      dues.push({ drawId, key: `${id} over ${first.of}`, kind: 'over', at_ms })
    }
    return dues
  })
}
