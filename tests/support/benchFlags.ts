import type { Flag } from '../../src/core/protocol/events.ts'

/** Flags that only an act on the bench can raise. */
export const BENCH_FLAGS: readonly Flag[] = [
  'spunTwice',
  'spunLate',
  'separatedLate',
  'keptCold',
  'sentLate',
  'actTimeUncertain',
]
