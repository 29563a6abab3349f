import type { Hearing, HearContext, HearState, Within } from './hearing.ts'
import type { HearRules } from './hearRules.ts'
import { exactMatch, soleWithin, trimUnknown, UNKNOWN } from './matchPhrase.ts'
import { nearness, type Nearness } from './nearness.ts'
import { isTalkAround } from './talkAround.ts'

/** How near a phrase seems by the levels of this hearing. */
export function nearnessOf(
  phrase: string,
  hearing: Hearing,
  { own_dBFS }: Pick<HearContext<string>, 'own_dBFS'>,
  rules: HearRules,
): Nearness | undefined {
  if (!rules.near) return undefined
  const { speech_dBFS } = hearing
  const own_dB =
    own_dBFS === undefined || speech_dBFS === undefined ? undefined : speech_dBFS - own_dBFS
  return nearness(phrase, { ...hearing, own_dB }, rules.near)
}

/**
 * How near the phrase in a text seems. Others who talk on behind it explain whatever stands around it; else it must be
 * at the end, and talk that was made out only after the phrase began may be of the same breath, and then it was one
 * person: far.
 * @param since_ms audio time at which the phrase first stood in the text
 * @param unknown_ms audio time at which the first unknown sounds did
 */
export function seemsNow(
  phrase: string,
  since_ms: number,
  unknown_ms: number | undefined,
  hearing: Hearing,
  context: HearContext<string>,
  rules: HearRules,
): Nearness | undefined {
  if (rules.near && isTalkAround(phrase, since_ms, hearing, context, rules.near)) {
    return nearnessOf(phrase, hearing, context, rules)
  }
  if (trimUnknown(hearing.text) !== phrase || hearing.text.endsWith(UNKNOWN)) return undefined
  const seems = nearnessOf(phrase, hearing, context, rules)
  if (unknown_ms === undefined || seems === undefined) return seems
  const began_ms = hearing.mono_ms - (hearing.quiet_ms ?? 0) - (hearing.spoken_ms ?? 0)
  return unknown_ms <= began_ms ? seems : 'far'
}

const RANK: Readonly<Record<Nearness, number>> = { far: 0, unsure: 1, near: 2 }

/** Follows the one phrase within the text of an utterance, from one partial result to the next. */
export function followWithin<K extends string>(
  state: HearState<K>,
  hearing: Hearing,
  context: HearContext<K>,
  rules: HearRules,
): Within<K> | undefined {
  const found = (rules.near ?? rules.held) ? soleWithin(hearing.text, context.open) : undefined
  if (!found) return undefined
  const old = state.within?.phrase === found.phrase ? state.within : undefined
  const within: Within<K> = old ?? { ...found, since_ms: hearing.mono_ms }
  const seems = seemsNow(found.phrase, within.since_ms, state.unknown_ms, hearing, context, rules)
  if (seems === undefined || RANK[seems] < RANK[within.seemed ?? 'far']) return within
  return { ...within, seemed: seems, speech_dBFS: hearing.speech_dBFS }
}

/** Whether a final result is a phrase of somebody near behind or before other talk. */
export function seemedAtEnd(
  state: HearState<string>,
  phrase: string,
  hearing: Hearing,
  context: HearContext<string>,
  rules: HearRules,
): Nearness | undefined {
  if (exactMatch(hearing.text, context.open)) return nearnessOf(phrase, hearing, context, rules)
  const { within } = state
  const since_ms = within?.phrase === phrase ? within.since_ms : hearing.mono_ms
  const now = seemsNow(phrase, since_ms, state.unknown_ms, hearing, context, rules)
  if (now !== undefined) return now
  if (!rules.near || within?.phrase !== phrase || within.seemed === undefined) return undefined
  // Other talk came behind it: it was somebody else's only where it is clearly softer.
  const { speech_dBFS: said_dBFS } = within
  const { speech_dBFS: after_dBFS } = hearing
  if (said_dBFS === undefined || after_dBFS === undefined) return undefined
  const isSofter = said_dBFS - after_dBFS >= rules.near.unsure_dB
  return isSofter && within.seemed !== 'far' ? 'unsure' : 'far'
}
