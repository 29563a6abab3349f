import type { CommandKey } from '../../src/core/protocol/commands.ts'
import { hear, holdOver } from '../../src/core/voice/hear.ts'
import { HEAR_START, type HearContext, type HearOutcome, type HearState } from '../../src/core/voice/hearing.ts' // prettier-ignore
import { HEAR_RULES } from '../../src/core/voice/hearRules.ts'

export const open = new Map<string, CommandKey>([
  ['band on', 'bandOn'],
  ['tube complete', 'tubeFull'],
  ['mixing done', 'tubeMixed'],
  ['label', 'labelMatches'],
  ['label wrong', 'labelWrong'],
  ['feeling faint', 'faint'],
  ['stop everything', 'stopEverything'],
])
export const quiet: HearContext = {
  open,
  actAtOnce: new Set(['faint', 'stopEverything']),
  speaking: false,
}
export const speaking: HearContext = { ...quiet, speaking: true }

/** `p` a partial, `f` a final, `w` the end of a hold; the number is audio time in ms. */
export type Line = readonly ['p' | 'f' | 'w', number, string?, number?]

/** What comes of the lines. */
export function listen(lines: readonly Line[], context: HearContext = quiet): HearOutcome[] {
  let state: HearState = HEAR_START
  const outcomes: HearOutcome[] = []
  for (const [kind, mono_ms, text = '', utterance = 1] of lines) {
    const step =
      kind === 'w'
        ? holdOver(state, mono_ms, context)
        : hear(state, { text, final: kind === 'f', utterance, mono_ms }, context)
    state = step.state
    if (step.outcome) outcomes.push(step.outcome)
  }
  return outcomes
}
/** The hold where pauses are not measured, as in these lines, ms. */
export const H = HEAR_RULES.hold_ms
