import { describe, expect, it } from 'vitest'
import { benchBoard, type BenchRow } from '../../../src/core/bench/benchBoard.ts'
import { keepRows } from '../../../src/core/bench/keepRows.ts'
import type { Rotor } from '../../../src/core/bench/rcf.ts'
import { benchLog, minutesIn, onBench } from '../../support/benchDraws.ts'
import { shippedSite } from '../../support/site.ts'

const ROTOR: Rotor = { places: 24, radius_mm: 170, angle: 'swing', most_rpm: 4000 }
const specimens = onBench(benchLog())
const at = (minutes: number, rotor = ROTOR): readonly BenchRow[] =>
  benchBoard(specimens, minutesIn(minutes), shippedSite.bench, rotor)

describe('of the rows of two looks at the clock', () => {
  it('the very list stays while nothing reads otherwise', () => {
    const before = at(10)
    expect(keepRows(before, at(10))).toBe(before)
    // Half a second later all minutes are what they were, to the millisecond or nearly so.
    expect(keepRows(before, at(10.008))).toBe(before)
  })

  it('only the row whose turn it has become is another', () => {
    const clotted = at(10).find(({ specimen }) => specimen.tubeId === 't2')?.due_ms ?? NaN
    const then = 10 + (clotted - minutesIn(10).wall_ms) / 60_000
    const before = at(then - 0.1)
    const after = keepRows(before, at(then + 0.1))
    const changed = after.filter((row) => !before.includes(row))
    expect(changed.map(({ specimen, step }) => [specimen.tubeId, step])).toEqual([['t2', 'spin']])
    expect(after).toHaveLength(before.length)
  })

  it('the order is that of now', () => {
    const turned = [...at(10)].reverse()
    const after = keepRows(turned, at(10))
    expect(after.map(({ specimen }) => specimen.tubeId)).toEqual(
      at(10).map(({ specimen }) => specimen.tubeId),
    )
    expect(after.every((row) => turned.includes(row))).toBe(true)
  })

  it('a clock that was set, another way to spin or a specimen that was read again make other rows', () => {
    const before = at(10)
    const reset = benchBoard(
      specimens,
      minutesIn(10, { wall_ms: minutesIn(10).wall_ms + 3_600_000 }),
      shippedSite.bench,
      ROTOR,
    )
    const clotting = (rows: readonly BenchRow[]): BenchRow | undefined =>
      rows.find(({ specimen }) => specimen.tubeId === 't2')
    expect(clotting(keepRows(before, reset))).not.toBe(clotting(before))
    const fixed = keepRows(before, at(10, { ...ROTOR, angle: 'fixed' }))
    expect(fixed.filter((row) => !before.includes(row)).every(({ spin }) => spin)).toBe(true)
    expect(fixed).not.toBe(before)
    const again = benchBoard(onBench(benchLog()), minutesIn(10), shippedSite.bench, ROTOR)
    expect(keepRows(before, again).some((row) => before.includes(row))).toBe(false)
  })

  it('what has left is gone, what has come is there', () => {
    const before = at(10)
    expect(keepRows(before, before.slice(1))).toEqual(before.slice(1))
    expect(keepRows(before.slice(1), before)).toEqual(before)
    expect(keepRows(before, [])).toEqual([])
  })
})
