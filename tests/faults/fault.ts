import type { BandAlarm, Outcome } from './outcome.ts'
import type { Stage } from './stage.ts'

export interface Fault {
  readonly id: string
  readonly family: string
  /** What is done to the app, and where it is injected when Chromium does not do it by itself. */
  readonly did: string
  /** Needs a browser to itself, or takes so long that it begins first. */
  readonly long?: boolean
  run(stage: Stage): Promise<Outcome>
}

export interface FaultRow {
  readonly fault: string
  readonly family: string
  readonly did: string
  readonly sawWithin2s: string | null
  readonly seen_ms: number | null
  readonly lost: string
  readonly silent: boolean
  readonly bandAlarm: BandAlarm
  readonly verdict: string
}
