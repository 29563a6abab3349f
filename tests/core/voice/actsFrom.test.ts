import { describe, expect, it } from 'vitest'
import type { CommandKey } from '../../../src/core/protocol/commands.ts'
import { hear } from '../../../src/core/voice/hear.ts'
import { HEAR_START, type HearContext, type HearState } from '../../../src/core/voice/hearing.ts'
import { HEAR_RULES } from '../../../src/core/voice/hearRules.ts'

// The shapes of talk are ones that the recognizer gave on recordings; the limits are our own, no outside source.
const context: HearContext = {
  open: new Map<string, CommandKey>([
    ['band on', 'bandOn'],
    ['patient says stop', 'withdrawConsent'],
    ['yes', 'confirmYes'],
    ['needle injury', 'needlestick'],
  ]),
  actAtOnce: new Set(['needlestick']),
  speaking: false,
}
const { quiet_ms, steady_ms, holdSafetyTalking_ms, holdWithin_ms, afterthought_ms, apart_ms } =
  HEAR_RULES

/** For the six letters of "band on". */
const LONGEST_ms = HEAR_RULES.longest_ms + 6 * HEAR_RULES.longestMore_ms

/** A partial result: audio time, pause so far, text, length of the speech. */
type Partial = readonly [
  mono_ms: number,
  quiet_ms: number,
  text: string,
  spoken_ms?: number | undefined,
]

/** Audio time at which something acted. */
function actedAt(partials: readonly Partial[]): number | undefined {
  let state: HearState = HEAR_START
  for (const [mono_ms, quiet, text, spoken_ms = 400] of partials) {
    const heard = { text, final: false, utterance: 1, mono_ms, quiet_ms: quiet, spoken_ms }
    const step = hear(state, heard, context)
    if (step.outcome?.kind === 'accept') return mono_ms
    state = step.state
  }
  return undefined
}

describe('a phrase alone', () => {
  it('acts in the pause after it, as soon as it has stood', () => {
    const at = 200 + steady_ms
    expect(
      actedAt([
        [100, 0, 'band'],
        [200, 0, 'band on'],
        [at - 1, quiet_ms, 'band on'],
        [at, quiet_ms, 'band on'],
      ]),
    ).toBe(at)
  })

  it('waits for the next piece of sound, not for a clock that may overtake it', () => {
    const heard = { text: 'band on', final: false, utterance: 1, mono_ms: 0, quiet_ms }
    expect(hear(HEAR_START, heard, context).state.hold).toBeUndefined()
  })

  it('does not act while the voice goes on, however long it stands', () => {
    expect(
      actedAt([
        [200, 0, 'band on'],
        [500, quiet_ms - 20, 'band on'],
        [5000, 0, 'band on'],
      ]),
    ).toBeUndefined()
  })

  it.each([
    ['words made out long after the voice had ended', [[100, 0, 'band'], [900, afterthought_ms + 1, 'band on']]],
    ['a single word', [[100, 0, 'yes']]],
    ['words far apart', [[100, 0, 'band'], [101 + apart_ms, 0, 'band on']]],
    ['a word too far for three', [[100, 0, 'patient'], [101 + apart_ms + HEAR_RULES.apartMore_ms, 0, 'patient says stop']]],
    ['unknown sounds before it', [[100, 0, '[unk]'], [200, 0, 'band on']]],
    ['more speech than the phrase', [[100, 0, 'band'], [200, 0, 'band on', LONGEST_ms + 1]]],
    ['other words after it', [[100, 0, 'band on'], [150, 0, 'band on [unk]']]],
  ] as [string, Partial[]][])('is left to the final result: %s', (_, partials) => {
    const [, , text = '', spoken_ms] = partials.at(-1) ?? []
    expect(actedAt([...partials, [5000, 600, text, spoken_ms]])).toBeUndefined()
  }) // prettier-ignore

  it.each([
    [
      'words as far apart as they may be',
      [
        [100, 0, 'band'],
        [100 + apart_ms, 0, 'band on'],
      ],
    ],
    [
      'three words take longer',
      [
        [100, 0, 'patient'],
        [101 + apart_ms, 0, 'patient says stop'],
      ],
    ],
    [
      'another word was seen first',
      [
        [100, 0, 'patient'],
        [900, 0, 'band on'],
      ],
    ],
  ] as [string, Partial[]][])('acts all the same: %s', (_, partials) => {
    const [, , text = '', spoken_ms] = partials.at(-1) ?? []
    expect(actedAt([...partials, [5000, quiet_ms, text, spoken_ms]])).toBe(5000)
  })
})

describe('a safety phrase', () => {
  it('does not wait for a pause', () => {
    const at = 100 + holdSafetyTalking_ms
    expect(
      actedAt([
        [100, 0, 'needle injury'],
        [at - 1, 0, 'needle injury'],
        [at, 0, 'needle injury'],
      ]),
    ).toBe(at)
  })

  it('must stand longer within other talk, where it is often seen for a moment', () => {
    const text = '[unk] needle injury'
    const seen: Partial[] = [
      [100, 0, text],
      [99 + holdWithin_ms, 0, text],
    ]
    expect(actedAt([...seen, [1100, 0, '[unk] [unk]']])).toBeUndefined()
    expect(actedAt([...seen, [100 + holdWithin_ms, 0, text]])).toBe(100 + holdWithin_ms)
  })
})
