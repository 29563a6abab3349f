import { describe, expect, it } from 'vitest'
import { benchBoard } from '../../../src/core/bench/benchBoard.ts'
import type { Rotor } from '../../../src/core/bench/rcf.ts'
import { spinRuns, type SpinRun } from '../../../src/core/bench/spinRuns.ts'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import { acted, benchLog, minutesIn, onBench } from '../../support/benchDraws.ts'
import { shippedSite } from '../../support/site.ts'

const ROTOR: Rotor = { places: 6, radius_mm: 170, angle: 'swing', most_rpm: 4000 }
const runs = (logs: readonly DrawLog[], minutes: number, rotor = ROTOR): readonly SpinRun[] =>
  spinRuns(benchBoard(logs.flatMap(onBench), minutesIn(minutes), shippedSite.bench, rotor), rotor)
const tubes = (run: SpinRun | undefined) => run?.rows.map(({ specimen }) => specimen.tubeId).sort()
const gels = (change: Parameters<typeof benchLog>[1] = {}): DrawLog =>
  benchLog(['activatorGel', 'activatorGel', 'activatorGel'], change)

describe('tubes that may turn together', () => {
  it('have one force and one time; what still clots waits', () => {
    const log = benchLog(['citrate', 'activatorGel', 'heparinLithiumGel'])
    expect(runs([log], 10).map(tubes).sort()).toEqual([['t1'], ['t3']])
    const later = runs([log], 40)
    expect(later.map(({ g, min }) => [g, min]).sort()).toEqual([
      [1300, 10],
      [1500, 15],
    ])
    expect(tubes(later.find(({ g }) => g === 1300))).toEqual(['t2', 't3'])
  })

  it('turn longer at a fixed angle', () => {
    expect(runs([gels()], 40, { ...ROTOR, angle: 'fixed' })[0]?.min).toBe(15)
  })

  it('fit the rotor in balance, and the rest makes a further run', () => {
    const all = runs([gels(), gels(), gels()], 40)
    expect(all.map(({ rows }) => rows.length)).toEqual([6, 3])
    // Three of six stand as a triangle.
    expect(all.map(({ blanks }) => blanks)).toEqual([0, 0])
  })

  it('are never spun again: not a gel tube, not any tube', () => {
    const spun = gels({ add: [acted(35, { type: 'spinStarted', tubeIds: ['t1', 't2'] })] })
    expect(tubes(runs([spun], 60)[0])).toEqual(['t3'])
    const once = gels({
      add: [
        acted(35, { type: 'spinStarted', tubeIds: ['t1', 't2', 't3'] }),
        acted(45, { type: 'spinEnded', tubeIds: ['t1', 't2', 't3'] }),
      ],
    })
    expect(runs([once], 60)).toEqual([])
  })

  it('of practice never turn with those of patients', () => {
    const practice = gels({ opening: { invented: true } })
    expect(runs([gels(), practice], 40).map(({ rows }) => rows.length)).toEqual([3, 3])
  })

  it('a tube filled to a mark, and one of another make, have no full one against them', () => {
    const board = benchBoard(onBench(gels()), minutesIn(40), shippedSite.bench, ROTOR).slice(0, 2)
    expect(spinRuns(board, ROTOR)[0]?.blanks).toBe(0)
    const with2nd = (change: object) =>
      board.map((row, n) => {
        const { specimen } = row
        const tube = { ...specimen.tube, ...(n === 1 && change) }
        return { ...row, specimen: { ...specimen, tube } }
      })
    expect(spinRuns(with2nd({ planned_mL: 1 }), ROTOR)[0]?.blanks).toBe(2)
    expect(spinRuns(with2nd({ tubeCode: 'other' }), ROTOR)[0]?.blanks).toBe(2)
  })

  it('a tube that is not full has a blank of its own against it', () => {
    const short = gels({
      add: [[157, { type: 'tubeOff', tubeId: 't3', fill: 'short', estimate_mL: 1 }]],
    })
    const [run] = runs([short], 40)
    expect(run?.rows.length).toBe(3)
    expect(run?.blanks).toBe(1)
    const places = run?.places ?? []
    const lone = places.findIndex(
      (place) => place.kind === 'tube' && place.row.specimen.tubeId === 't3',
    )
    expect(places[(lone + 3) % 6]).toMatchObject({ kind: 'blank' })
  })

  it('no faster than the rotor turns', () => {
    expect(runs([gels()], 40, { ...ROTOR, radius_mm: 60 })[0]?.isTooFast).toBe(true)
    expect(runs([gels()], 40)[0]?.isTooFast).toBe(false)
  })
})
