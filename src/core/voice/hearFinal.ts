import { defined } from '../basics/defined.ts'
import { seemedAtEnd } from './followWithin.ts'
import {
  hasActed,
  type Acted,
  type Amid,
  type Hearing,
  type HearContext,
  type HearOutcome,
  type HearState,
  type HearStep,
} from './hearing.ts'
import { tooSoft, type HearRules } from './hearRules.ts'
import {
  afterPhrase,
  exactMatch,
  isFragment,
  safetyWithin,
  soleWithin,
  trimUnknown,
  UNKNOWN,
} from './matchPhrase.ts'
import { wasHeld } from './mayAct.ts'
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
  const seen_ms =
    state.within && text.includes(state.within.phrase) ? state.within.since_ms : undefined
  const isHeld = wasHeld(seen_ms ?? hearing.mono_ms, context, rules)
  const held = isHeld ? true : undefined
  const safe = safetyWithin(text, context.open, context.actAtOnce)
  if (safe) return { kind: 'accept', ...safe, early: false, ...defined({ held }) }
  const tainted = state.tainted || (state.began_ms === undefined && context.speaking)
  const match = exactMatch(text, context.open)
  const amid = match ? undefined : amidTalk(state, hearing, context, rules, isHeld)
  const said = match ?? (amid?.kind === 'accept' ? amid : undefined)
  if (!said) {
    if (tainted) return undefined
    return amid ?? (isFragment(text, context.open) ? { kind: 'unclear', text } : undefined)
  }
  const { phrase, key } = said
  if (tainted) return { kind: 'refuse', phrase, why: 'speaking' }
  if (!saidByItself(state, hearing, rules)) return undefined
  if (tooSoft(hearing, rules)) return { kind: 'refuse', phrase, why: 'tooSoft' }
  if (hearing.confidence !== undefined && hearing.confidence < rules.confidence) {
    return { kind: 'refuse', phrase, why: 'unsure' }
  }
  if (context.heldRequired && !isHeld) return { kind: 'refuse', phrase, why: 'notHeld' }
  if (context.toUsOnly?.has(phrase) && !isHeld) {
    const seems = seemedAtEnd(state, phrase, hearing, context, rules)
    if (seems === 'far') return { kind: 'refuse', phrase, why: 'notToUs' }
    if (seems !== 'near' || context.own_dBFS === undefined) return { kind: 'again', phrase }
  }
  return { kind: 'accept', phrase, key, early: false, ...defined({ held }) }
}

/** A phrase in a final result with other talk around it: said while held, by somebody near, or perhaps by one. */
function amidTalk<K extends string>(
  state: HearState<K>,
  hearing: Hearing,
  context: HearContext<K>,
  rules: HearRules,
  isHeld: boolean,
): Extract<HearOutcome<K>, { kind: 'accept' | 'again' }> | undefined {
  const found = (rules.near ?? rules.held) ? soleWithin(hearing.text, context.open) : undefined
  if (!found) return undefined
  if (isHeld) return { kind: 'accept', ...found, early: false }
  if (context.heldRequired) return undefined
  const seems = seemedAtEnd(state, found.phrase, hearing, context, rules)
  if (seems === 'near') return { kind: 'accept', ...found, early: false }
  return seems === 'unsure' ? { kind: 'again', phrase: found.phrase } : undefined
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
  const outcome = contradicts(acted, text, context)
  if (!outcome || !context.heldRequired || acted.held) return outcome
  // Where the ears must be held open, what followed a safety phrase without it does nothing of its own.
  if (outcome.kind === 'accept') {
    return context.actAtOnce.has(outcome.key) ? outcome : undefined
  }
  if (outcome.kind !== 'undo' || !outcome.meant) return outcome
  const { meant, ...undo } = outcome
  return context.actAtOnce.has(meant.key) ? outcome : undo
}

function contradicts<K extends string>(
  acted: Acted<K>,
  text: string,
  context: HearContext<K>,
): HearStep<K>['outcome'] {
  const { key, phrase } = acted
  const safety = context.actAtOnce.has(key)
  if (acted.amid) return afterAmid(acted, acted.amid, text)
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

/** The same for an act amid other talk: the phrase is still there, another one is, or nothing but talk. */
function afterAmid<K extends string>(
  { key, phrase, open }: Acted<K>,
  amid: Amid,
  text: string,
): HearStep<K>['outcome'] {
  if (` ${text} `.includes(` ${phrase} `)) return undefined
  const meant =
    exactMatch(trimUnknown(text), open) ?? (amid === 'held' ? soleWithin(text, open) : undefined)
  if (meant)
    return meant.key === key ? undefined : { kind: 'undo', key, phrase, instead: text, meant }
  const isTalk = text.split(' ').every((word) => word === UNKNOWN)
  return isTalk ? { kind: 'undo', key, phrase, instead: text } : undefined
}
