import type { BenchAct } from '../protocol/benchEvents.ts'
import type { SpinRun } from './spinRuns.ts'

type SpinStarted = Omit<Extract<BenchAct, { type: 'spinStarted' }>, 'tubeIds' | 'act' | 'at_ms'>

/** Nobody sets a centrifuge to the single turn. */
const STEP_rpm = 10

/** What a run is set to, as it stands in the record. */
export function spinDeed(run: SpinRun, rotor: string): SpinStarted {
  const { g, min: spin_min, temperature } = run
  const rpm = Math.round(run.rpm / STEP_rpm) * STEP_rpm
  return { type: 'spinStarted', g, spin_min, temperature, rpm, rotor }
}
