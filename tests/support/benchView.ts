import type { BenchView } from '../../src/app/view/benchViewTypes.ts'
import { rotorOf } from '../../src/app/bench/rotorHere.ts'
import { DEFAULT_SETTINGS } from '../../src/app/site/settings.ts'
import { benchBoard, type BenchRow } from '../../src/core/bench/benchBoard.ts'
import { acted, benchLog, minutesIn, onBench } from './benchDraws.ts'
import { logOf, sampleOpening, straightLines } from './sampleLog.ts'
import { samplePlan } from './samplePlan.ts'
import { shippedSite } from './site.ts'

const rotor = rotorOf(DEFAULT_SETTINGS)
const rowsAt = (
  minutes: number,
  logs: readonly ReturnType<typeof benchLog>[],
): readonly BenchRow[] =>
  benchBoard(logs.flatMap(onBench), minutesIn(minutes), shippedSite.bench, rotor)

/** A bench with something at most steps, one tube past its time, and one of practice. All of it is invented. */
export const FULL_BENCH: BenchView = {
  rows: rowsAt(95, [
    benchLog(['citrate', 'activatorGel', 'edtaK2'], { opening: { drawId: 'D7-20261125-0003' } }),
    benchLog(['heparinLithium', 'plain', 'edtaK2'], {
      opening: { drawId: 'D7-20261125-0004' },
      add: [
        acted(70, { type: 'spinStarted', tubeIds: ['t1'], g: 2000, spin_min: 15 }),
        acted(90, { type: 'spinEnded', tubeIds: ['t1'] }),
        acted(91, { type: 'spinStarted', tubeIds: ['t2'], g: 1500, spin_min: 10 }),
        acted(92, { type: 'stored', tubeIds: ['t3'], where: 'room' }),
      ],
    }),
  ]),
  practice: rowsAt(95, [benchLog(undefined, { opening: { invented: true } })]),
  uncharted: [],
  now_ms: minutesIn(95).wall_ms,
  acts: [
    {
      id: 'D7-20261125-B1',
      type: 'stored',
      at_ms: minutesIn(92).wall_ms,
      specimens: [{ drawId: 'D7-20261125-0004', tubeIds: ['t3'] }],
    },
  ],
}

const draw = (n: number): { readonly drawId: string } => ({
  drawId: `D7-20261125-${String(n).padStart(4, '0')}`,
})
const person = (n: number, fullName: string) => ({
  opening: {
    ...draw(n),
    patient: { fullName, birthDate: `1970-01-${10 + n}`, recordNumber: `MRN-${400 + n}` },
  },
})
const SERUM = ['citrate', 'activatorGel', 'edtaK2'] as const
const PLASMA = ['heparinLithium', 'plain', 'fluorideOxalate'] as const

/** A full bench late in a morning: every step, two runs to lay out, and tubes past their time. All of it is invented. */
export const BUSY_BENCH: BenchView = {
  ...FULL_BENCH,
  // prettier-ignore
  rows: rowsAt(95, [
    ...[1, 2, 3, 4, 5].map((n) => benchLog([...SERUM], person(n, ['Ines Fauxley', 'Omar Mockridge', 'Robin Testwell', 'Kit Placemore', 'Maximiliana Featherstonehaugh'][n - 1] ?? ''))),
    benchLog([...PLASMA], { ...person(6, 'Bo Quill'), add: [acted(60, { type: 'spinStarted', tubeIds: ['t1'], g: 2000, spin_min: 15 }), acted(76, { type: 'spinEnded', tubeIds: ['t1'] }), acted(77, { type: 'separated', tubeIds: ['t1'] })] }),
    benchLog([...PLASMA], { ...person(7, 'Cy Heath'), add: [acted(88, { type: 'spinStarted', tubeIds: ['t1', 't2'], g: 2000, spin_min: 15 })] }),
    benchLog([...SERUM], { ...person(8, 'Di Moor'), add: [acted(50, { type: 'spinStarted', tubeIds: ['t1', 't2'], g: 1500, spin_min: 15 }), acted(66, { type: 'spinEnded', tubeIds: ['t1', 't2'] }), acted(70, { type: 'stored', tubeIds: ['t1', 't2', 't3'], where: 'fridge' })] }),
    benchLog([...SERUM], { ...person(9, 'Ed Marsh'), add: [acted(50, { type: 'spinStarted', tubeIds: ['t2'], g: 1500, spin_min: 15 }), acted(66, { type: 'spinEnded', tubeIds: ['t2'] }), acted(70, { type: 'stored', tubeIds: ['t2'], where: 'fridge' }), acted(80, { type: 'bagged', tubeIds: ['t2', 't3'], bag: 'A' })] }),
    logOf(straightLines(sampleOpening({ ...person(10, 'Flo Rivers').opening, plan: samplePlan() })), minutesIn(75).wall_ms),
  ]),
}
