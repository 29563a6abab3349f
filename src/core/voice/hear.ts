import {
  HEAR_START,
  type Acted,
  type Heard,
  type HearContext,
  type HearState,
  type HearStep,
} from './hearing.ts'
import { HEAR_RULES, type HearRules } from './hearRules.ts'
import { actsFrom_ms } from './actsFrom.ts'
import { afterPhrase, exactMatch, isFragment, safetyWithin, sharesStart, trimUnknown, UNKNOWN, type Match } from './matchPhrase.ts' // prettier-ignore

/**
 * Decides what a hearing means. Pure; audio time is the only time.
 * A partial result acts once it is exactly an open phrase, no longer open phrase begins with it, and it sounded like a
 * phrase said to us (`actsFrom_ms`); the caller asks `holdOver` when the hold ends. A final result acts if nothing has
 * yet, and takes an early act back if it heard something else. One utterance acts once, but for phrases said in one
 * breath.
 */
export function hear(
  state: HearState,
  heard: Heard,
  context: HearContext,
  rules: HearRules = HEAR_RULES,
): HearStep {
  const text = heard.text.trim()
  if (heard.utterance < state.utterance) return late(state, text, heard, context)
  const fresh = heard.utterance > state.utterance ? next(state, heard.utterance) : state
  if (heard.final) {
    return { state: ended(fresh), ...given(onFinal(fresh, { ...heard, text }, context, rules)) }
  }
  const now = follow(fresh, { ...heard, text }, context)
  if (!text || hasActed(now)) return { state: { ...now, hold: undefined } }
  const match =
    exactMatch(text, context.open) ?? safetyWithin(text, context.open, context.actAtOnce)
  if (!match || sharesStart(match.phrase, context.open)) {
    return { state: { ...now, hold: undefined } }
  }
  const until_ms = actsFrom_ms(now, match, heard, context.actAtOnce, rules)
  if (until_ms === undefined) return { state: { ...now, hold: undefined } }
  const held = { ...now, hold: { ...match, until_ms, ...levelOf(heard) } }
  return heard.mono_ms >= until_ms ? act(held, match, heard, context, rules) : { state: held }
}

/** A new utterance: all is forgotten but an act whose final result is still to come. */
const next = (state: HearState, utterance: number): HearState => ({
  ...HEAR_START,
  utterance,
  acted: state.acted,
})

/** After a final result the next hearing begins anew, whatever its number. */
const ended = (state: HearState): HearState => ({ ...HEAR_START, utterance: state.utterance })

const hasActed = (state: HearState): boolean => state.acted?.utterance === state.utterance

/** The final result of an older utterance: only good for taking back what that utterance had brought about. */
function late(state: HearState, text: string, heard: Heard, context: HearContext): HearStep {
  if (!heard.final || state.acted?.utterance !== heard.utterance) return { state }
  const outcome = afterEarly(state.acted, text, context)
  // What followed in the same breath is heard by the recognizer of the next step as well: it counts once.
  return {
    state: { ...state, acted: undefined },
    ...given(outcome?.kind === 'undo' ? outcome : undefined),
  }
}

/** To be asked when a hold's time has come and nothing new was heard. */
export function holdOver(
  state: HearState,
  mono_ms: number,
  context: HearContext,
  rules: HearRules = HEAR_RULES,
): HearStep {
  const { hold } = state
  if (!hold || hasActed(state) || mono_ms < hold.until_ms) return { state }
  const match = { phrase: hold.phrase, key: hold.key }
  // The step may have moved on while the phrase was held.
  if (context.open.get(hold.phrase) !== hold.key) return { state: { ...state, hold: undefined } }
  return act(
    state,
    match,
    { text: state.text, final: false, utterance: state.utterance, mono_ms, ...levelOf(hold) },
    context,
    rules,
  )
}

const firstWord = (text: string): string => text.split(' ', 1)[0] ?? ''

function follow(state: HearState, heard: Heard, context: HearContext): HearState {
  const { text, mono_ms, quiet_ms = 0 } = heard
  const same = text === state.text
  return {
    ...state,
    text,
    since_ms: same ? state.since_ms : mono_ms,
    began_ms: state.began_ms ?? (text ? mono_ms : undefined),
    word_ms: firstWord(text) === firstWord(state.text) ? state.word_ms : mono_ms,
    unknown: state.unknown || text.includes(UNKNOWN),
    afterthought_ms: same ? state.afterthought_ms : quiet_ms,
    // Speech that was under way before our prompt began is not its echo.
    tainted: state.tainted || (state.began_ms === undefined && text !== '' && context.speaking),
  }
}

function act(
  state: HearState,
  match: Match,
  heard: Heard,
  context: HearContext,
  rules: HearRules,
): HearStep {
  const safety = context.actAtOnce.has(match.key)
  if (state.tainted && !safety) return { state: { ...state, hold: undefined } }
  if (soft(heard, rules)) return { state: { ...state, hold: undefined } }
  return {
    state: {
      ...state,
      hold: undefined,
      acted: { ...match, utterance: state.utterance, open: context.open },
    },
    outcome: { kind: 'accept', ...match, early: true },
  }
}

function onFinal(
  state: HearState,
  heard: Heard,
  context: HearContext,
  rules: HearRules,
): HearStep['outcome'] {
  const { text } = heard
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
  if (soft(heard, rules)) return { kind: 'refuse', phrase: match.phrase, why: 'tooSoft' }
  if (heard.confidence !== undefined && heard.confidence < rules.confidence) {
    return { kind: 'refuse', phrase: match.phrase, why: 'unsure' }
  }
  return { kind: 'accept', ...match, early: false }
}

/**
 * The final result of an utterance that has acted already: the same, more of the same breath, or something else. Known
 * words that make no phrase are not something else: noise at the end of a phrase costs the final result its last word.
 */
function afterEarly(acted: Acted, text: string, context: HearContext): HearStep['outcome'] {
  const { key, phrase } = acted
  if (context.actAtOnce.has(key)) return undefined
  const heard = trimUnknown(text)
  const rest = afterPhrase(heard, phrase)
  const next = rest ? exactMatch(rest, context.open) : undefined
  if (next) return { kind: 'accept', ...next, early: false }
  if (rest !== undefined) return undefined
  const meant = exactMatch(heard, acted.open)
  if (meant)
    return meant.key === key ? undefined : { kind: 'undo', key, phrase, instead: text, meant }
  return heard === UNKNOWN ? { kind: 'undo', key, phrase, instead: text } : undefined
}

const levelOf = ({ level_dB }: Pick<Heard, 'level_dB'>): Pick<Heard, 'level_dB'> =>
  level_dB === undefined ? {} : { level_dB }

function soft(heard: Heard, rules: HearRules): boolean {
  return heard.level_dB !== undefined && heard.level_dB < rules.level_dB
}

function given(outcome: HearStep['outcome']): Pick<HearStep, 'outcome'> {
  return outcome ? { outcome } : {}
}
