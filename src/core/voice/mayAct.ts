import { actsFrom_ms } from './actsFrom.ts'
import type { Amid, Hearing, HearContext, HearState } from './hearing.ts'
import type { HearRules } from './hearRules.ts'
import { isSaidHeld } from './heldEars.ts'
import { exactMatch, safetyWithin, sharesStart, type Match } from './matchPhrase.ts'
import { nearnessOf, seemsNow } from './followWithin.ts'

/** A phrase in a partial result, and the audio time from which it may act if it still stands then. */
export interface MayAct<K extends string> extends Match<K> {
  readonly until_ms: number
  readonly amid?: Amid
}

/** Whether words that were made out at that time were said while the ears were held open. */
export const wasHeld = (
  seen_ms: number,
  { held }: Pick<HearContext<string>, 'held'>,
  rules: HearRules,
): boolean => rules.held !== undefined && isSaidHeld(held, seen_ms, rules.held)

/** Looks for a phrase that may act before its final result: one that stands alone, or else one amid other talk. */
export function mayAct<K extends string>(
  state: HearState<K>,
  hearing: Hearing,
  context: HearContext<K>,
  rules: HearRules,
): MayAct<K> | undefined {
  const alone = aloneMayAct(state, hearing, context, rules)
  const amid = amidMayAct(state, hearing, context, rules)
  if (!alone || !amid) return alone ?? amid
  return alone.until_ms <= amid.until_ms ? alone : amid
}

function aloneMayAct<K extends string>(
  state: HearState<K>,
  hearing: Hearing,
  context: HearContext<K>,
  rules: HearRules,
): MayAct<K> | undefined {
  const { text } = hearing
  const { open, actAtOnce } = context
  const match = exactMatch(text, open) ?? safetyWithin(text, open, actAtOnce)
  if (!match || sharesStart(match.phrase, open)) return undefined
  if (!actAtOnce.has(match.key)) {
    const isHeld = wasHeld(state.since_ms, context, rules)
    if (context.heldRequired && !isHeld) return undefined
    if (context.toUsOnly?.has(match.phrase) && !isHeld) {
      if (!isToUs(match.phrase, hearing, context, rules)) return undefined
    }
  }
  const until_ms = actsFrom_ms(state, match, hearing, actAtOnce, rules)
  return until_ms === undefined ? undefined : { ...match, until_ms }
}

/** Near, and as loud as our own phrases are: in a quiet room all that is said stands out. */
const isToUs = (
  phrase: string,
  hearing: Hearing,
  context: HearContext<string>,
  rules: HearRules,
): boolean =>
  context.own_dBFS !== undefined && nearnessOf(phrase, hearing, context, rules) === 'near'

function amidMayAct<K extends string>(
  state: HearState<K>,
  hearing: Hearing,
  context: HearContext<K>,
  rules: HearRules,
): MayAct<K> | undefined {
  const { within } = state
  if (!within || context.actAtOnce.has(within.key)) return undefined
  const { phrase, key } = within
  if (rules.held && wasHeld(within.since_ms, context, rules)) {
    return { phrase, key, until_ms: within.since_ms + rules.held.stands_ms, amid: 'held' }
  }
  if (context.heldRequired || hearing.text === phrase) return undefined
  const seems = seemsNow(phrase, within.since_ms, state.unknown_ms, hearing, context, rules)
  if (seems !== 'near') return undefined
  if (state.afterthought_ms > rules.afterthought_ms || sharesStart(phrase, context.open)) {
    return undefined
  }
  if (context.toUsOnly?.has(phrase) && context.own_dBFS === undefined) return undefined
  return { phrase, key, until_ms: state.since_ms + rules.steady_ms, amid: 'near' }
}
