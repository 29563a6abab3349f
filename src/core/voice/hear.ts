import { defined } from '../basics/defined.ts'
import { followWithin } from './followWithin.ts'
import { afterEarly, onFinal } from './hearFinal.ts'
import {
  HEAR_START,
  hasActed,
  type Hearing,
  type HearContext,
  type HearState,
  type HearStep,
} from './hearing.ts'
import { HEAR_RULES, tooSoft, type HearRules } from './hearRules.ts'
import { UNKNOWN } from './matchPhrase.ts'
import { mayAct, wasHeld, type MayAct } from './mayAct.ts'

/**
 * Decides what a hearing means. Pure; audio time is the only time.
 * A partial result acts once it is exactly an open phrase, no longer open phrase begins with it, and it sounded like a
 * phrase said to us (`actsFrom_ms`), or stood amid other talk of others (`mayAct`); while there is a hold the caller
 * asks `holdOver` when it ends. A final result
 * acts if nothing has yet, and takes an early act back if it heard something else. One utterance acts once, but for
 * phrases said in one breath.
 */
export function hear<K extends string>(
  state: HearState<K>,
  hearing: Hearing,
  context: HearContext<K>,
  rules: HearRules = HEAR_RULES,
): HearStep<K> {
  const text = hearing.text.trim()
  if (hearing.utterance < state.utterance) return late(state, text, hearing, context)
  const fresh = hearing.utterance > state.utterance ? next(state, hearing.utterance) : state
  if (hearing.final) {
    return defined({
      state: ended(fresh, { ...hearing, text }),
      outcome: onFinal(fresh, { ...hearing, text }, context, rules),
    })
  }
  const now = follow(fresh, { ...hearing, text }, context, rules)
  if (!text || hasActed(now)) return { state: { ...now, hold: undefined } }
  const found = mayAct(now, { ...hearing, text }, context, rules)
  if (!found) return { state: { ...now, hold: undefined } }
  if (hearing.mono_ms >= found.until_ms) return act(now, found, hearing, context, rules)
  // Where pauses are measured every chunk of audio brings a hearing: the next one decides, not a clock that may
  // overtake it.
  const hold =
    hearing.quiet_ms === undefined
      ? { ...found, ...defined({ level_dB: hearing.level_dB }) }
      : undefined
  return { state: { ...now, hold } }
}

/** A new utterance: all is forgotten but an act whose final result is still to come. */
const next = <K extends string>(state: HearState<K>, utterance: number): HearState<K> => ({
  ...HEAR_START,
  utterance,
  acted: state.acted,
  // An utterance that was cut off without a final result was heard until its last new word.
  saidUntil_ms: state.text ? Math.max(state.saidUntil_ms, state.since_ms) : state.saidUntil_ms,
})

/** After a final result the next hearing begins anew, whatever its number. */
const ended = (
  { utterance, saidUntil_ms }: HearState<string>,
  { text, mono_ms, quiet_ms = 0 }: Hearing,
): HearState<never> => ({
  ...HEAR_START,
  utterance,
  saidUntil_ms: text ? mono_ms - quiet_ms : saidUntil_ms,
})

/** The final result of an older utterance: only good for taking back what that utterance had brought about. */
function late<K extends string>(
  state: HearState<K>,
  text: string,
  hearing: Hearing,
  context: HearContext<K>,
): HearStep<K> {
  if (!hearing.final || state.acted?.utterance !== hearing.utterance) return { state }
  const outcome = afterEarly(state.acted, text, context)
  // What followed in the same breath is heard by the recognizer of the next step as well: it counts once.
  return defined({
    state: { ...state, acted: undefined },
    outcome: outcome?.kind === 'undo' ? outcome : undefined,
  })
}

/** To be asked when a hold's time has come and nothing new was heard. */
export function holdOver<K extends string>(
  state: HearState<K>,
  mono_ms: number,
  context: HearContext<K>,
  rules: HearRules = HEAR_RULES,
): HearStep<K> {
  const { hold } = state
  if (!hold || hasActed(state) || mono_ms < hold.until_ms) return { state }
  // The step may have moved on while the phrase was held.
  if (context.open.get(hold.phrase) !== hold.key) return { state: { ...state, hold: undefined } }
  return act(
    state,
    hold,
    defined({
      text: state.text,
      final: false,
      utterance: state.utterance,
      mono_ms,
      level_dB: hold.level_dB,
    }),
    context,
    rules,
  )
}

const firstWord = (text: string): string => text.split(' ', 1)[0] ?? ''

function follow<K extends string>(
  state: HearState<K>,
  hearing: Hearing,
  context: HearContext<K>,
  rules: HearRules,
): HearState<K> {
  const { text, mono_ms, quiet_ms = 0 } = hearing
  const same = text === state.text
  const isUnknown = text.includes(UNKNOWN)
  const unknown_ms = state.unknown_ms ?? (isUnknown ? mono_ms : undefined)
  return {
    ...state,
    text,
    since_ms: same ? state.since_ms : mono_ms,
    began_ms: state.began_ms ?? (text ? mono_ms : undefined),
    word_ms: firstWord(text) === firstWord(state.text) ? state.word_ms : mono_ms,
    unknown: state.unknown || isUnknown,
    unknown_ms,
    within: followWithin({ ...state, unknown_ms }, hearing, context, rules),
    afterthought_ms: same ? state.afterthought_ms : quiet_ms,
    // Speech that was under way before our prompt began is not its echo.
    tainted: state.tainted || (state.began_ms === undefined && text !== '' && context.speaking),
  }
}

function act<K extends string>(
  state: HearState<K>,
  { phrase, key, amid }: Pick<MayAct<K>, 'phrase' | 'key' | 'amid'>,
  hearing: Hearing,
  context: HearContext<K>,
  rules: HearRules,
): HearStep<K> {
  const safety = context.actAtOnce.has(key)
  if (state.tainted && !safety) return { state: { ...state, hold: undefined } }
  if (tooSoft(hearing, rules)) return { state: { ...state, hold: undefined } }
  const { utterance } = state
  const seen_ms = state.within?.phrase === phrase ? state.within.since_ms : state.since_ms
  const held = wasHeld(seen_ms, context, rules) ? true : undefined
  return {
    state: {
      ...state,
      hold: undefined,
      acted: { phrase, key, utterance, open: context.open, ...defined({ amid, held }) },
    },
    outcome: { kind: 'accept', key, phrase, early: true, ...defined({ held }) },
  }
}
