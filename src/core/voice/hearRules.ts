/** Numbers behind the acceptance rules; how they were chosen is measured in `models/README.md`. */
export interface HearRules {
  /** A phrase acts once it has been quiet again for this long: who is still talking has not finished. */
  readonly quiet_ms: number
  /** It must stand for this long all the same: in the next piece of sound it may be another. */
  readonly steady_ms: number
  /** Without a pause, as in a room full of talk, it must stand this long. */
  readonly holdTalking_ms: number
  /** Where pauses are not measured it must stand this long. */
  readonly hold_ms: number
  /** The same for safety phrases, spoken alone. */
  readonly holdSafety_ms: number
  /** For safety phrases within other talk. */
  readonly holdWithin_ms: number
  /** Words made out only this long after the voice had ended were guessed; the final result decides. */
  readonly afterthought_ms: number
  /** Between the first word of a two-word phrase and the whole; said more slowly, the final result decides. */
  readonly apart_ms: number
  /** More for each further word. */
  readonly apartMore_ms: number
  /** Speech this much above the room, dB, where the adapter measures it. */
  readonly level_dB: number
  /** Mean confidence, where the engine gives it. */
  readonly confidence: number
}

export const HEAR_RULES: HearRules = {
  quiet_ms: 120,
  steady_ms: 80,
  holdTalking_ms: 700,
  hold_ms: 240,
  holdSafety_ms: 80,
  holdWithin_ms: 500,
  afterthought_ms: 300,
  apart_ms: 700,
  apartMore_ms: 200,
  level_dB: 3,
  confidence: 0.5,
}
