import type { Additive } from '../../src/core/catalogue/additives.ts'
import { benchSpecimens, type BenchSpecimen } from '../../src/core/bench/benchSpecimens.ts'
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import type { Reading } from '../../src/core/time/stamp.ts'
import { sampleLog, sampleOpening, SAMPLE_START_ms, type Line } from './sampleLog.ts'
import { samplePlan, sampleTube } from './samplePlan.ts'
import { shippedSite } from './site.ts'

const MINUTE_ms = 60_000

type Change = NonNullable<Parameters<typeof sampleLog>[0]>

/** A closed draw of three tubes, about 09:02 local time. */
export function benchLog(
  additives: readonly [Additive, Additive, Additive] = ['citrate', 'activatorGel', 'edtaK2'],
  change: Change = {},
): DrawLog {
  // A tube without activator clots in 60 min: web page, as in the catalog.
  const plan = samplePlan(
    additives.map((additive, i) =>
      sampleTube(`t${i + 1}`, additive, additive === 'plain' ? { clot_min: 60 } : {}),
    ),
  )
  return sampleLog({ ...change, opening: sampleOpening({ plan, ...change.opening }) })
}

export const onBench = (log: DrawLog): readonly BenchSpecimen[] =>
  benchSpecimens(log, shippedSite.catalogue)

/** The clock so many minutes after the draw was opened, on the page that wrote it. */
export const minutesIn = (minutes: number, change: Partial<Reading> = {}): Reading => ({
  wall_ms: SAMPLE_START_ms + minutes * MINUTE_ms,
  mono_ms: 5000 + minutes * MINUTE_ms,
  boot: 'boot-1',
  offset_min: 60,
  ...change,
})

export const acted = (minutes: number, event: Line[1]): Line => [minutes * 60, event]
