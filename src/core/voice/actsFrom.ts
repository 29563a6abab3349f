import type { Hearing, HearState } from './hearing.ts'
import type { HearRules } from './hearRules.ts'
import type { Match } from './matchPhrase.ts'
import { mostSpoken_ms } from './mostSpoken.ts'

/**
 * Audio time, ms, from which a phrase in a partial result may act if the text still stands then; `undefined` when only
 * the final result can tell. A phrase said to us comes whole, in one go, and is followed by a pause. Talk in which the
 * recognizer sees a phrase for a moment goes on, is longer than the phrase, has unknown sounds in it, or lets words
 * appear far apart or long after the voice has ended.
 */
export function actsFrom_ms(
  state: HearState<string>,
  match: Match<string>,
  hearing: Hearing,
  actAtOnce: ReadonlySet<string>,
  rules: HearRules,
): number | undefined {
  if (state.afterthought_ms > rules.afterthought_ms) return undefined
  const alone =
    state.text === match.phrase && !state.unknown && inOneGo(state, match, hearing, rules)
  const safety = actAtOnce.has(match.key)
  if (!alone) return safety ? state.since_ms + rules.holdWithin_ms : undefined
  const stands_ms = hold_ms(hearing.quiet_ms, safety, rules)
  return stands_ms === undefined ? undefined : state.since_ms + stands_ms
}

function hold_ms(
  quiet_ms: number | undefined,
  safety: boolean,
  rules: HearRules,
): number | undefined {
  if (quiet_ms === undefined) return safety ? rules.holdSafety_ms : rules.hold_ms
  if (quiet_ms >= rules.quiet_ms) return rules.steady_ms
  return safety ? rules.holdSafetyTalking_ms : undefined
}

function inOneGo(
  state: HearState<string>,
  { phrase }: Match<string>,
  hearing: Hearing,
  rules: HearRules,
): boolean {
  const words = phrase.split(' ').length
  // A single word is in too much else; all of the speech must have been heard.
  if (words === 1) return false
  const apart_ms = rules.apart_ms + rules.apartMore_ms * Math.max(0, words - 2)
  return (
    state.since_ms - state.word_ms <= apart_ms &&
    (hearing.spoken_ms ?? 0) <= mostSpoken_ms(phrase, rules)
  )
}
