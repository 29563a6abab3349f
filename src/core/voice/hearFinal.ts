import {
  hasActed,
  type Acted,
  type Hearing,
  type HearContext,
  type HearState,
  type HearStep,
} from './hearing.ts'
import { tooSoft, type HearRules } from './hearRules.ts'
import {
  afterPhrase,
  exactMatch,
  isFragment,
  safetyWithin,
  trimUnknown,
  UNKNOWN,
} from './matchPhrase.ts'
import { saidByItself } from './saidByItself.ts'

/** What a final result brings about, after an early act of its utterance or without one. */
export function onFinal<K extends string>(
  state: HearState<K>,
  hearing: Hearing,
  context: HearContext<K>,
  rules: HearRules,
): HearStep<K>['outcome'] {
  const { text } = hearing
  if (state.acted && hasActed(state)) return afterEarly(state.acted, text, context)
  const safe = safetyWithin(text, context.open, context.actAtOnce)
  if (safe) return { kind: 'accept', ...safe, early: false }
  const tainted = state.tainted || (state.began_ms === undefined && context.speaking)
  const match = exactMatch(text, context.open)
  if (!match) {
    if (!tainted && isFragment(text, context.open)) return { kind: 'unclear', text }
    return undefined
  }
  if (tainted) return { kind: 'refuse', phrase: match.phrase, why: 'speaking' }
  if (!saidByItself(state, hearing, rules)) return undefined
  if (tooSoft(hearing, rules)) return { kind: 'refuse', phrase: match.phrase, why: 'tooSoft' }
  if (hearing.confidence !== undefined && hearing.confidence < rules.confidence) {
    return { kind: 'refuse', phrase: match.phrase, why: 'unsure' }
  }
  return { kind: 'accept', ...match, early: false }
}

/**
 * The final result of an utterance that has acted already: the same, more of the same breath, or something else. Known
 * words that make no phrase are not something else: noise at the end of a phrase costs the final result its last word.
 * A safety phrase is taken back only for another phrase, heard word for word ("feeling sick" for "feeling faint").
 */
export function afterEarly<K extends string>(
  acted: Acted<K>,
  text: string,
  context: HearContext<K>,
): HearStep<K>['outcome'] {
  const { key, phrase } = acted
  const safety = context.actAtOnce.has(key)
  const transcript = safety ? text : trimUnknown(text)
  const rest = afterPhrase(transcript, phrase)
  const next = rest ? exactMatch(rest, context.open) : undefined
  if (next) return { kind: 'accept', ...next, early: false }
  if (rest !== undefined) return undefined
  const meant = exactMatch(transcript, acted.open)
  if (meant)
    return meant.key === key ? undefined : { kind: 'undo', key, phrase, instead: text, meant }
  return transcript === UNKNOWN && !safety
    ? { kind: 'undo', key, phrase, instead: text }
    : undefined
}
