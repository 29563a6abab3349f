import { mostSpoken_ms, type SpokenLimits } from './mostSpoken.ts'

/** How near the person was who said a phrase, as far as levels can tell. */
export type Nearness = 'near' | 'unsure' | 'far'

/** Limits of near and far; `src/data/listening.json`. */
export interface NearLimits extends SpokenLimits {
  /** Clearly louder than the running background, dB. */
  readonly clear_dB: number
  /** Louder than it by less than this: of the talk itself, dB. */
  readonly unsure_dB: number
  /** Louder than the moment before it began, dB: talk swells, a phrase sets in. */
  readonly onset_dB: number
  /** The pause behind it, ms. */
  readonly pause_ms: number
  /** Softer by this than our own phrases were: not surely ours, dB. */
  readonly softer_dB: number
  /** Softer by this: somebody else's, dB. */
  readonly other_dB: number
  /** Others whose talk is softer by more than this are not heard amid the speech before the microphone, dB. */
  readonly talk_dB: number
}

/** What was measured of the speech that a phrase stood in; see `Hearing`. */
export interface PhraseLevels {
  readonly above_dB?: number | undefined
  readonly onset_dB?: number | undefined
  readonly quiet_ms?: number | undefined
  readonly spoken_ms?: number | undefined
  /** Its loudness against that of our own phrases, dB; absent while these are unknown. */
  readonly own_dB?: number | undefined
}

/**
 * Tells the person at the chair from talk behind, by loudness alone. The person at the chair is nearer: clearly louder
 * than what was heard in the last seconds, from one moment to the next, and done after the phrase.
 * @returns `undefined` where it was not measured
 */
export function nearness(
  phrase: string,
  levels: PhraseLevels,
  limits: NearLimits,
): Nearness | undefined {
  const { above_dB, onset_dB, quiet_ms, spoken_ms, own_dB = 0 } = levels
  if (above_dB === undefined || onset_dB === undefined) return undefined
  if (quiet_ms === undefined || spoken_ms === undefined) return undefined
  if (spoken_ms > mostSpoken_ms(phrase, limits)) return 'far'
  if (above_dB < limits.unsure_dB || own_dB < -limits.other_dB) return 'far'
  const isClear = above_dB >= limits.clear_dB && onset_dB >= limits.onset_dB
  const isOurs = own_dB >= -limits.softer_dB
  return isClear && isOurs && quiet_ms >= limits.pause_ms ? 'near' : 'unsure'
}
