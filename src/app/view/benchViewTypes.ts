import type { BenchRow } from '../../core/bench/benchBoard.ts'
import type { VoicedAct } from '../../core/bench/voicedGroup.ts'
import type { ActDone } from '../../core/day/dayEvents.ts'
import type { BenchAct } from '../../core/protocol/benchEvents.ts'

/** Tubes of one draw. */
export interface TubesOfDraw {
  readonly drawId: string
  readonly tubeIds: readonly string[]
}

/** What was done at the bench under one id, as the logs of its draws have it. */
export interface ActSeen {
  readonly id: string
  readonly type: BenchAct['type']
  readonly at_ms: number
  readonly specimens: readonly TubesOfDraw[]
}

/** The bench as the screens show it: what is still here, what is due first on top. */
export interface BenchView {
  readonly rows: readonly BenchRow[]
  /** Of practice; never with the others. */
  readonly practice: readonly BenchRow[]
  /** When it was looked at, Unix ms. */
  readonly now_ms: number
  /** The last acts, the newest first: one may be taken back. */
  readonly acts: readonly ActSeen[]
  /** Tubes, as `drawId tubeId`, with an act that the device of their draw has not charted yet. */
  readonly uncharted: readonly string[]
}

export const NO_BENCH: BenchView = { rows: [], practice: [], now_ms: 0, acts: [], uncharted: [] }

/** So many tubes were charted; no group fits, or a person must choose on the screen. */
export type SaidOfBench = { readonly done: number } | 'none' | 'several'

/** What a person can do at the bench. None rejects; what goes wrong is told. */
export interface BenchActions {
  /** Writes one act into the record of each of the draws. */
  act(deed: ActDone, specimens: readonly TubesOfDraw[]): Promise<void>
  /** An act was said in error: it is taken back in each of its draws, and stays readable. */
  takeBack(act: ActSeen): Promise<void>
  /** What is said of the one group that it can be about; what other pages did is read before. */
  byVoice(said: VoicedAct | 'takeBack'): Promise<SaidOfBench>
}
