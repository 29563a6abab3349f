/** Numbers behind the acceptance rules; how they were chosen is measured in `models/README.md`. */
export interface HearRules {
  /** A partial result must stay the same this long before it acts. */
  readonly hold_ms: number
  /** The same for safety phrases. */
  readonly holdSafety_ms: number
  /** Speech this much above the room, dB, where the adapter measures it. */
  readonly level_dB: number
  /** Mean confidence, where the engine gives it. */
  readonly confidence: number
}

export const HEAR_RULES: HearRules = {
  hold_ms: 240,
  holdSafety_ms: 80,
  level_dB: 3,
  confidence: 0.5,
}
