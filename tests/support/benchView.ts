import type { BenchView } from '../../src/app/view/benchViewTypes.ts'
import { rotorOf } from '../../src/app/bench/rotorHere.ts'
import { DEFAULT_SETTINGS } from '../../src/app/site/settings.ts'
import { benchBoard, type BenchRow } from '../../src/core/bench/benchBoard.ts'
import { acted, benchLog, minutesIn, onBench } from './benchDraws.ts'
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
