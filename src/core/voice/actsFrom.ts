import type { HearState } from './hearing.ts'
import type { HearRules } from './hearRules.ts'
import type { Match } from './matchPhrase.ts'

/**
 * Audio time, ms, from which a phrase in a partial result may act if the text still stands then; `undefined` when only
 * the final result can tell. A phrase said to us comes whole, in one go, and is followed by a pause. Talk in which the
 * recognizer sees a phrase for a moment goes on, has unknown sounds in it, or lets words appear far apart or long after
 * the voice has ended.
 * @param quiet_ms pause after the speech so far; `undefined` where it is not measured
 */
export function actsFrom_ms(
  state: HearState,
  match: Match,
  quiet_ms: number | undefined,
  actAtOnce: ReadonlySet<string>,
  rules: HearRules,
): number | undefined {
  if (state.afterthought_ms > rules.afterthought_ms) return undefined
  const alone = state.text === match.phrase && !state.unknown && inOneGo(state, match, rules)
  if (actAtOnce.has(match.key)) {
    return state.since_ms + (alone ? rules.holdSafety_ms : rules.holdWithin_ms)
  }
  if (!alone) return undefined
  if (quiet_ms === undefined) return state.since_ms + rules.hold_ms
  const paused = quiet_ms >= rules.quiet_ms
  return state.since_ms + (paused ? rules.steady_ms : rules.holdTalking_ms)
}

function inOneGo(state: HearState, { phrase }: Match, rules: HearRules): boolean {
  const words = phrase.split(' ').length
  const allowed_ms = rules.apart_ms + rules.apartMore_ms * Math.max(0, words - 2)
  return state.since_ms - state.word_ms <= allowed_ms
}
