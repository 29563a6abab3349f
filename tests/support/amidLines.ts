import type { CommandKey } from '../../src/core/protocol/commands.ts'
import { hear } from '../../src/core/voice/hear.ts'
import { HEAR_START, type Hearing, type HearContext, type HearOutcome, type HearState } from '../../src/core/voice/hearing.ts' // prettier-ignore
import { drawRules, type HearRules } from '../../src/core/voice/hearRules.ts'
import { open } from './hearLines.ts'
import { shippedListening } from './shippedListening.ts'

/** As the draw hears. */
export const AMID_RULES = drawRules(shippedListening)

const around: HearContext = {
  open: new Map<string, CommandKey>([...open, ['how long', 'howLong'], ['yes', 'confirmYes']]),
  actAtOnce: new Set(['faint', 'stopEverything']),
  speaking: false,
}

/** Speech of this length, clearly nearer than the talk before it, and the pause behind it. */
export const NEAR = {
  speech_dBFS: -20,
  above_dB: 12,
  onset_dB: 12,
  quiet_ms: 240,
  spoken_ms: 600,
} as const
/** As loud as the talk before it. */
export const FAR = { ...NEAR, above_dB: 0 } as const
export const UNSURE = { ...NEAR, above_dB: 6 } as const
/** Talk that goes on. */
export const TALK = { ...FAR, quiet_ms: 0, spoken_ms: 4000 } as const

export type AmidLine = readonly ['p' | 'f', number, string, Partial<Hearing>?]

/** What comes of partial (`p`) and final (`f`) results at these ms. */
export function hearAmid(
  lines: readonly AmidLine[],
  context: Partial<HearContext> = {},
  rules: HearRules = AMID_RULES,
): HearOutcome[] {
  let state: HearState = HEAR_START
  const outcomes: HearOutcome[] = []
  let utterance = 1
  for (const [kind, mono_ms, text, more] of lines) {
    const final = kind === 'f'
    const hearing = { text, final, utterance, mono_ms, ...more }
    const step = hear(state, hearing, { ...around, ...context }, rules)
    if (final) utterance++
    state = step.state
    if (step.outcome) outcomes.push(step.outcome)
  }
  return outcomes
}
