import type { DrawOpened } from '../../src/core/protocol/events.ts'
import type { DrawSitting } from '../../src/core/order/sitting.ts'
import { seriesOf, type Series } from '../../src/core/record/seriesRecord.ts'
import { SAMPLE_DRAW_ID, sampleLog, type Line } from './sampleLog.ts'

const point = (number: number, name: string, after_min?: number) => ({
  ...{ code: 'ogtt75', name: 'Glucose tolerance 75 g', number, of: 3, point: name },
  tests: ['test-citrate'],
  ...(after_min !== undefined && {
    ...{ from: 'drinkFinished' as const, after_min, tolerance_min: 5 },
  }),
})

/** A glucose tolerance test whose fasting sample is drawn. */
const SAMPLE_SITTING: DrawSitting = {
  series: SAMPLE_DRAW_ID,
  parts: [point(1, 'fasting')],
  later: [point(2, '1 h', 60), point(3, '2 h', 120)],
}

/** The series of a draw with that first sitting, and whatever was told in its record. */
export function sampleSeries(
  told: readonly Line[] = [],
  opening: Partial<DrawOpened> = {},
): Series {
  const log = sampleLog({ opening: { sitting: SAMPLE_SITTING, ...opening }, add: told })
  const series = seriesOf([log])
  if (!series) throw new Error('The log begins no series.')
  return series
}
