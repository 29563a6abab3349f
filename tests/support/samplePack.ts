import { packSpecimens, type PackSpecimen } from '../../src/core/courier/packSpecimen.ts'
import type { Laboratory } from '../../src/core/catalogue/laboratories.ts'
import type { Line } from './sampleLog.ts'
import { sampleLog } from './sampleLog.ts'
import { samplePlan, sampleTube } from './samplePlan.ts'

/** Two invented laboratories: one takes lactate alone, the other everything else. */
export const LABORATORIES: readonly Laboratory[] = [
  {
    id: 'main',
    name: 'Example Laboratory',
    tests: 'rest',
    carriedAt: { blood: 'room', serum: 'cold', plasma: 'cold', culture: 'room' },
    pickUps: ['11:00', '16:00'],
    most_h: 4,
    source: 'invented',
  },
  {
    id: 'special',
    name: 'Sample Metabolic Laboratory',
    tests: ['lactate'],
    carriedAt: { blood: 'room', serum: 'cold', plasma: 'cold', culture: 'room' },
    pickUps: [],
    most_h: 2,
    source: 'invented',
  },
]

/** Blood count, lactate on ice and bilirubin kept dark, of one invented draw; numbers end in 01 to 03. */
export function sampleSpecimens(
  drawId = 'D7-20261125-0003',
  add: readonly Line[] = [],
  invented = false,
): readonly PackSpecimen[] {
  const plan = samplePlan([
    sampleTube('t1', 'edtaK2', { tests: ['cbc'], timeLimit_min: 1440, timeLimitOf: 'cbc' }),
    sampleTube('t2', 'fluorideOxalate', {
      tests: ['lactate'],
      handling: ['ice'],
      timeLimit_min: 15,
      timeLimitOf: 'lactate',
    }),
    sampleTube('t3', 'activatorGel', { tests: ['bilirubinTotal'], handling: ['light'] }),
  ])
  return packSpecimens(sampleLog({ opening: { drawId, plan, invented }, add }))
}
