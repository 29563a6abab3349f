import { describe, expect, it } from 'vitest'
import type { CommandKey } from '../../../src/core/protocol/commands.ts'
import { hear } from '../../../src/core/voice/hear.ts'
import { HEAR_START, type HearContext, type HearState } from '../../../src/core/voice/hearing.ts'
import { HEAR_RULES } from '../../../src/core/voice/hearRules.ts'

// The limits are our own, no outside source: a word said on purpose to us, and talk in which it stands.
const context: HearContext = {
  open: new Map<string, CommandKey>([
    ['no', 'confirmNo'],
    ['answer no', 'confirmNo'],
    ['band on', 'bandOn'],
  ]),
  actAtOnce: new Set(),
  speaking: false,
}
const { singleBefore_ms, singleLongest_ms, singleLongestMore_ms } = HEAR_RULES
const LONGEST_ms = singleLongest_ms + 2 * singleLongestMore_ms

interface Line {
  readonly at_ms: number
  readonly text: string
  readonly utterance?: number
  readonly final?: boolean
  readonly spoken_ms?: number
  readonly quiet_ms?: number
}

/** Commands that acted. */
function acted(lines: readonly Line[]): readonly string[] {
  let state: HearState = HEAR_START
  return lines.flatMap(({ at_ms, utterance = 1, final = false, ...line }) => {
    const heard = { quiet_ms: 0, spoken_ms: 300, ...line, utterance, final, mono_ms: at_ms }
    const step = hear(state, heard, context)
    state = step.state
    return step.outcome?.kind === 'accept' ? [step.outcome.phrase] : []
  })
}
const word = (at_ms: number, more: Partial<Line> = {}): readonly Line[] => [
  { at_ms, text: 'no', utterance: 2, ...more },
  { at_ms: at_ms + 700, text: 'no', utterance: 2, final: true, quiet_ms: 400, ...more },
]

describe('a single word', () => {
  it('acts when it was all that was said', () => {
    expect(acted(word(5000))).toEqual(['no'])
  })

  it('waits for the final result, however long it stands', () => {
    expect(acted([{ at_ms: 0, text: 'no' }, { at_ms: 5000, text: 'no', quiet_ms: 900 }])).toEqual([]) // prettier-ignore
  })

  it.each<[string, readonly Line[]]>([
    ['talk that ended just before it', [{ at_ms: 1000, text: '[unk] on', final: true, quiet_ms: 400 }, ...word(600 + singleBefore_ms - 1)]],
    ['talk that was cut off just before it', [{ at_ms: 1000, text: '[unk]' }, ...word(1000 + singleBefore_ms - 1)]],
    ['unknown sounds in the same breath', [{ at_ms: 5000, text: '[unk]', utterance: 2 }, ...word(5100)]],
    ['other words that the final result dropped', [{ at_ms: 5000, text: 'band no', utterance: 2 }, { at_ms: 5700, text: 'band no', utterance: 2 }, { at_ms: 5800, text: 'no', utterance: 2, final: true }]],
    ['speech longer than the word', word(5000, { spoken_ms: LONGEST_ms + 1 })],
  ])('does nothing in %s', (_, lines) => {
    expect(acted(lines)).toEqual([])
  }) // prettier-ignore

  it('acts again once it has been quiet for long enough', () => {
    const before: Line = { at_ms: 1000, text: '[unk] on', final: true, quiet_ms: 400 }
    expect(acted([before, ...word(600 + singleBefore_ms)])).toEqual(['no'])
    expect(acted([before, ...word(600 + singleBefore_ms, { spoken_ms: LONGEST_ms })])).toEqual([
      'no',
    ])
  })

  it('is not waited for by phrases of more words', () => {
    const before: Line = { at_ms: 1000, text: '[unk] on', final: true, quiet_ms: 400 }
    const phrase = { at_ms: 1800, text: 'answer no', utterance: 2, final: true, spoken_ms: 900 }
    expect(acted([before, phrase])).toEqual(['answer no'])
  })
})
