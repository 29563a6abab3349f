import type { HeldLimits } from './heldEars.ts'
import type { Hearing } from './hearing.ts'
import type { NearLimits } from './nearness.ts'

/** Numbers behind the acceptance rules; how they were chosen is measured in `models/README.md`. */
export interface HearRules {
  /** A phrase acts once it has been quiet again for this long: who is still talking has not finished. */
  readonly quiet_ms: number
  /** It must stand for this long all the same: in the next chunk of audio it may be another. */
  readonly steady_ms: number
  /** Where pauses are not measured it must stand this long. */
  readonly hold_ms: number
  /** The same for safety phrases, spoken alone. */
  readonly holdSafety_ms: number
  /** Where pauses are measured and there is none, they must stand this long; others wait for the final result. */
  readonly holdSafetyTalking_ms: number
  /** For safety phrases within other talk. */
  readonly holdWithin_ms: number
  /** Words made out only this long after the voice had ended were guessed; the final result decides. */
  readonly afterthought_ms: number
  /** Between the first word of a two-word phrase and the whole; said more slowly, the final result decides. */
  readonly apart_ms: number
  /** More for each further word. */
  readonly apartMore_ms: number
  /**
   * Speech that lasted longer than this and so much for each letter is more than the phrase; the final result decides.
   */
  readonly longest_ms: number
  readonly longestMore_ms: number
  /**
   * A single word acts only where it was said by itself: nothing was heard for so long before it, and all of the speech
   * lasted no longer than this and so much for each letter, where the adapter measures that.
   */
  readonly singleBefore_ms: number
  readonly singleLongest_ms: number
  readonly singleLongestMore_ms: number
  /** Speech this much above the room, dB, where the adapter measures it. */
  readonly level_dB: number
  /** Mean confidence, where the engine gives it. */
  readonly confidence: number
  /** Where talk is told by level from who is near; without them only a phrase that stands alone acts. */
  readonly near?: NearLimits
  /** Where the ears can be held open. */
  readonly held?: HeldLimits
}

export const HEAR_RULES: HearRules = {
  quiet_ms: 140,
  steady_ms: 80,
  hold_ms: 240,
  holdSafety_ms: 80,
  holdSafetyTalking_ms: 450,
  holdWithin_ms: 1500,
  afterthought_ms: 300,
  apart_ms: 900,
  apartMore_ms: 200,
  longest_ms: 700,
  longestMore_ms: 60,
  singleBefore_ms: 1500,
  singleLongest_ms: 500,
  singleLongestMore_ms: 50,
  level_dB: 3,
  confidence: 0.5,
}

/** The rules of a draw, where near and far are told and the ears can be held open; between patients neither is. */
export const drawRules = ({
  near,
  held,
}: Required<Pick<HearRules, 'near' | 'held'>>): HearRules => ({
  ...HEAR_RULES,
  near,
  held,
})

/** Hardly louder than the room: not said to us. */
export const tooSoft = ({ level_dB }: Hearing, rules: HearRules): boolean =>
  level_dB !== undefined && level_dB < rules.level_dB
