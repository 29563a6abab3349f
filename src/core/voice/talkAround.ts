import type { Hearing, HearContext } from './hearing.ts'
import { mostSpoken_ms } from './mostSpoken.ts'
import type { NearLimits } from './nearness.ts'

/** The last word of a phrase is made out when most of it was said; what was there sooner was said before it. */
const SAID_BY_THEN = 0.5

/**
 * Whether what stands around a phrase may be the talk of others behind it, so that the words of a text tell nothing:
 * the others are heard up to its beginning, it was no longer than the phrase itself, and the phrase came up while it
 * was said. Only where we know how loud the person at the chair is: else somebody else's sentence would pass for it.
 * @param since_ms audio time at which the phrase first stood in the text
 */
export function isTalkAround(
  phrase: string,
  since_ms: number,
  hearing: Hearing,
  { own_dBFS }: Pick<HearContext<string>, 'own_dBFS'>,
  limits: NearLimits,
): boolean {
  const { before_dB, quiet_ms, spoken_ms, mono_ms } = hearing
  if (own_dBFS === undefined || before_dB === undefined) return false
  if (quiet_ms === undefined || spoken_ms === undefined) return false
  const began_ms = mono_ms - quiet_ms - spoken_ms
  return (
    before_dB >= -limits.talk_dB &&
    spoken_ms <= mostSpoken_ms(phrase, limits) &&
    since_ms >= began_ms + SAID_BY_THEN * spoken_ms
  )
}
