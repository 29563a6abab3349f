import { describe, expect, it } from 'vitest'
import { benchBoard, type BenchRow } from '../../../src/core/bench/benchBoard.ts'
import { benchDues } from '../../../src/core/bench/benchDues.ts'
import type { Rotor } from '../../../src/core/bench/rcf.ts'
import { spinRuns } from '../../../src/core/bench/spinRuns.ts'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import { acted, benchLog, minutesIn, onBench } from '../../support/benchDraws.ts'
import { sampleLog, sampleOpening, wrongPersonAddendum } from '../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'
import { shippedSite } from '../../support/site.ts'

const ROTOR: Rotor = { places: 24, radius_mm: 170, angle: 'swing', most_rpm: 4000 }
const board = (log: DrawLog, minutes: number, change = {}): readonly BenchRow[] =>
  benchBoard(onBench(log), minutesIn(minutes, change), shippedSite.bench, ROTOR)
const rowOf = (rows: readonly BenchRow[], tubeId: string): BenchRow => {
  const row = rows.find(({ specimen }) => specimen.tubeId === tubeId)
  if (!row) throw new Error(`${tubeId} is not on the bench.`)
  return row
}
const step = (log: DrawLog, minutes: number, tubeId: string): string =>
  rowOf(board(log, minutes), tubeId).step

describe('whose turn a specimen is', () => {
  const log = benchLog()

  // Gel tubes stand at least 30 min upright: laboratory reference manual page.
  it('serum stands for its clotting time and is then spun; citrate at once', () => {
    expect(step(log, 10, 't1')).toBe('spin')
    expect(step(log, 10, 't2')).toBe('clot')
    expect(step(log, 35, 't2')).toBe('spin')
  })

  it('whole blood is put away, bagged and waits', () => {
    expect(step(log, 10, 't3')).toBe('store')
    const stored = benchLog(undefined, {
      add: [acted(20, { type: 'stored', tubeIds: ['t3'], where: 'room' })],
    })
    expect(step(stored, 21, 't3')).toBe('bag')
    const bagged = benchLog(undefined, {
      add: [acted(20, { type: 'bagged', tubeIds: ['t3'], bag: 'B1' })],
    })
    expect(step(bagged, 21, 't3')).toBe('courier')
  })

  it('longer on a blood thinner (how much is common practice, no source)', () => {
    const { preparation } = sampleOpening()
    const thin = benchLog(undefined, {
      opening: { preparation: { ...preparation, anticoagulant: 'other' } },
    })
    expect(step(thin, 35, 't2')).toBe('clot')
    expect(step(thin, 65, 't2')).toBe('spin')
    expect(rowOf(board(thin, 35), 't2').clotsLonger).toBe(true)
  })

  it('in the spin until somebody says that it is done, due after its minutes', () => {
    const spun = benchLog(undefined, {
      add: [acted(40, { type: 'spinStarted', tubeIds: ['t2'], g: 1300, spin_min: 10 })],
    })
    const row = rowOf(board(spun, 45), 't2')
    expect([row.step, row.isDue]).toEqual(['spinning', false])
    expect(rowOf(board(spun, 50), 't2').isDue).toBe(true)
    const done = benchLog(undefined, {
      add: [
        acted(40, { type: 'spinStarted', tubeIds: ['t2'] }),
        acted(51, { type: 'spinEnded', tubeIds: ['t2'] }),
      ],
    })
    // Behind gel nothing is poured.
    expect(step(done, 52, 't2')).toBe('store')
  })

  it('without gel serum or plasma is taken off the cells', () => {
    const done = benchLog(['citrate', 'plain', 'heparinLithium'], {
      add: [
        acted(70, { type: 'spinStarted', tubeIds: ['t1', 't2', 't3'] }),
        acted(85, { type: 'spinEnded', tubeIds: ['t1', 't2', 't3'] }),
      ],
    })
    expect(['t1', 't2', 't3'].map((id) => step(done, 86, id))).toEqual([
      'store',
      'separate',
      'separate',
    ])
  })

  it('a card dries and is never spun', () => {
    const opening = sampleOpening({
      collecting: 'capillaryHeel',
      plan: samplePlan([
        sampleTube('t1', 'edtaK2'),
        sampleTube('t2', 'activatorGel'),
        sampleTube('t3', 'filterPaper'),
      ]),
    })
    const row = rowOf(board(sampleLog({ opening }), 300), 't3')
    expect(row.step).toBe('dry')
    expect(row.spin).toBeUndefined()
  })

  it('gone with the courier, also by a bare entry of an older log', () => {
    const gone = benchLog(undefined, { add: [acted(60, { type: 'courierTook' })] })
    expect(board(gone, 61).map((row) => [row.step, row.limits.length])).toEqual([
      ['gone', 0],
      ['gone', 0],
      ['gone', 0],
    ])
  })

  it('a tube that was lost is no specimen, and nothing of somebody else is', () => {
    const lost = benchLog(undefined, {
      add: [
        acted(20, { type: 'spinStarted', tubeIds: ['t2'] }),
        acted(25, { type: 'tubeSwapped', tubeId: 't2', why: 'droppedTube', redrawnAs: 51 }),
      ],
    })
    expect(onBench(lost).map(({ tubeId }) => tubeId)).toEqual(['t1', 't3'])
    const stranger = benchLog(undefined, {
      add: [acted(5, { type: 'exceptionRaised', kind: 'identityMismatch' })],
    })
    expect(onBench(stranger)).toEqual([])
  })
})

describe('until when', () => {
  // 30 to 90 min: public research manual; 2 h: laboratory reference manual page. The stricter counts.
  it('serum is not left longer on the clot than the stricter source says, 90 min', () => {
    const row = rowOf(board(benchLog(), 80), 't2')
    expect(row.limits.map(({ of, isOver }) => [of, isOver])).toEqual([
      ['clotMost', false],
      ['separate', false],
    ])
    expect(rowOf(board(benchLog(), 95), 't2').limits[0]).toMatchObject({
      of: 'clotMost',
      isOver: true,
    })
  })

  // Separate from the cells within two hours of collection: laboratory handbook pages.
  it('plasma is off the cells within two hours; what passed stays and is said', () => {
    const log = benchLog(['citrate', 'plain', 'heparinLithium'])
    expect(rowOf(board(log, 119), 't3').limits[0]?.isOver).toBe(false)
    const rows = board(log, 125)
    expect(rowOf(rows, 't3').limits[0]).toMatchObject({ of: 'separate', isOver: true })
    expect(rows.length).toBe(3)
  })

  // PT 24 h, aPTT 4 h and, under heparin, 1 h to the spin: CLSI H21 as quoted, Adcock 1998, as in the catalog.
  it('each test has its own limit, the nearest first, until the spin', () => {
    const tube = { ...sampleTube('t1', 'citrate'), tests: ['pt', 'aptt'] }
    const plan = samplePlan([tube, sampleTube('t2', 'activatorGel'), sampleTube('t3', 'edtaK2')])
    const { preparation } = sampleOpening()
    const heparin = { ...preparation, anticoagulant: 'heparin' as const }
    const ofTests = (minutes: number, change: Parameters<typeof benchLog>[1]) =>
      rowOf(board(benchLog(undefined, change), minutes), 't1').limits.flatMap(({ test, isOver }) =>
        test === undefined ? [] : [[test, isOver]],
      )
    expect(ofTests(65, { opening: { plan } })).toEqual([
      ['aptt', false],
      ['pt', false],
    ])
    expect(ofTests(65, { opening: { plan, preparation: heparin } })).toEqual([
      ['aptt', true],
      ['pt', false],
    ])
    const spun = acted(8, { type: 'spinStarted', tubeIds: ['t1'] })
    expect(ofTests(65, { opening: { plan, preparation: heparin }, add: [spun] })).toEqual([])
  })

  it('plasma out of EDTA is spun where a test asks for it, and a blood count never', () => {
    const edta = (test: string) => {
      const tube = { ...sampleTube('t3', 'edtaK2'), tests: [test] }
      const plan = samplePlan([sampleTube('t1', 'citrate'), sampleTube('t2', 'activatorGel'), tube])
      return rowOf(board(benchLog(undefined, { opening: { plan } }), 10), 't3')
    }
    expect(edta('ammonia')).toMatchObject({ step: 'spin', spin: { g: 2000, min: 15 } })
    expect(edta('cbc').step).toBe('store')
  })
})

describe('a clock that was set', () => {
  it('back by an hour on the same page: the page’s own clock tells', () => {
    const set = { wall_ms: minutesIn(35 - 60).wall_ms }
    expect(rowOf(board(benchLog(), 35, set), 't2').step).toBe('spin')
  })

  it('forward by a day on the same page: waits count what surely passed, limits what may have', () => {
    const set = { wall_ms: minutesIn(24 * 60).wall_ms }
    const row = rowOf(board(benchLog(), 10, set), 't2')
    expect(row.step).toBe('clot')
    expect(row.limits.map(({ isOver }) => isOver)).toEqual([true, true])
  })

  it('back over a reload: nobody knows how long it was, so every limit counts as passed', () => {
    const row = rowOf(board(benchLog(), -60, { boot: 'boot-2', mono_ms: 10 }), 't2')
    expect(row.step).toBe('clot')
    expect(row.limits.map(({ isOver }) => isOver)).toEqual([true, true])
  })
})

describe('what is told', () => {
  it('when it is ready, when a limit is near and when it has passed, and nothing of whose', () => {
    const rows = board(benchLog(), 10)
    const dues = benchDues(rows).filter(({ key }) => key.includes(' t2 '))
    expect(dues.map(({ kind }) => kind)).toEqual(['ready', 'near', 'over'])
    expect(JSON.stringify(dues)).not.toContain('Invented')
    expect(dues.map(({ at_ms }) => Math.floor((at_ms - minutesIn(0).wall_ms) / 60_000))).toEqual([
      32, 82, 92,
    ])
  })

  it('what is due stands above what is not, the nearest limit on top', () => {
    const rows = board(benchLog(['heparinLithium', 'activatorGel', 'edtaK2']), 10)
    expect(rows.map(({ specimen, isDue }) => [specimen.tubeId, isDue])).toEqual([
      ['t1', true],
      ['t3', true],
      // Its limit of 90 min is nearer than the others', and it still clots.
      ['t2', false],
    ])
  })
})

describe('what is of another person than its label says', () => {
  const log = benchLog(undefined, { add: [acted(40, wrongPersonAddendum)] })

  it('is held back on top of the board, due for nothing, and turns in no run', () => {
    const rows = board(log, 45)
    expect(rows.map(({ step }) => step)).toEqual(rows.map(() => 'held'))
    expect(rows.some(({ isDue, limits }) => isDue || limits.length > 0)).toBe(false)
    expect(spinRuns(rows, ROTOR)).toEqual([])
    const both = benchBoard(
      [
        ...onBench(benchLog(undefined, { opening: { drawId: '99-20261125-0009' } })),
        ...onBench(log),
      ],
      minutesIn(45),
      shippedSite.bench,
      ROTOR,
    )
    expect(both.slice(0, rows.length).map(({ step }) => step)).toEqual(rows.map(() => 'held'))
  })

  it('is first taken out of the centrifuge, and stays where it went where it has left', () => {
    const spinning = benchLog(undefined, {
      add: [
        acted(40, { type: 'spinStarted', tubeIds: ['t2'], g: 1300, spin_min: 10 }),
        acted(42, wrongPersonAddendum),
      ],
    })
    expect(rowOf(board(spinning, 45), 't2').step).toBe('spinning')
    const gone = benchLog(undefined, {
      add: [
        acted(40, { type: 'courierTook', tubeIds: ['t2'], courier: 'Kim Carrier' }),
        acted(42, wrongPersonAddendum),
      ],
    })
    expect(rowOf(board(gone, 45), 't2').step).toBe('gone')
  })

  it('an addendum about something else holds nothing back', () => {
    const { wrongPerson: _wrong, ...other } = wrongPersonAddendum
    const rows = board(benchLog(undefined, { add: [acted(40, other)] }), 45)
    expect(rows.some(({ step }) => step === 'held')).toBe(false)
  })
})
