import type { Hearing, HearState } from './hearing.ts'
import type { HearRules } from './hearRules.ts'

/**
 * Whether the final result of a single word may act. "No" and "yes" are pieces of any talk, and in talk the recognizer
 * finds them often: so nothing else may have been heard in the utterance, unknown sounds included, nothing just before
 * it, and the speech may have lasted no longer than the word. Phrases of more words are not asked.
 */
export function saidByItself(
  state: HearState<string>,
  { text, mono_ms, spoken_ms }: Hearing,
  rules: HearRules,
): boolean {
  if (text.includes(' ')) return true
  const began_ms = state.began_ms ?? mono_ms - (spoken_ms ?? 0)
  const longest_ms = rules.singleLongest_ms + rules.singleLongestMore_ms * text.length
  return (
    !state.unknown &&
    !state.text.includes(' ') &&
    began_ms - state.saidUntil_ms >= rules.singleBefore_ms &&
    (spoken_ms ?? 0) <= longest_ms
  )
}
