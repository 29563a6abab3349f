import { describe, expect, it } from 'vitest'
import type { HeldSpan } from '../../../src/core/voice/heldEars.ts'
import { hearAmid, TALK, type AmidLine } from '../../support/amidLines.ts'

const held: HeldSpan = { from_ms: 1000, to_ms: 21_000 }
const BAND_ON = { kind: 'accept', key: 'bandOn', phrase: 'band on', held: true } as const
/** A phrase in the middle of talk that does not stop. */
const inTalk = (from_ms: number): readonly AmidLine[] => [
  ['p', from_ms - 500, '[unk]', TALK],
  ['p', from_ms, '[unk] band on', TALK],
  ['p', from_ms + 400, '[unk] band on [unk]', TALK],
  ['p', from_ms + 900, '[unk] band on [unk] [unk]', TALK],
  ['p', from_ms + 1000, '[unk] band on [unk] [unk]', TALK],
]

describe('with the ears held open', () => {
  it('a phrase amid talk acts once it has stood, though the talk goes on', () => {
    expect(hearAmid(inTalk(2000), { held })).toEqual([{ ...BAND_ON, early: true }])
    expect(hearAmid(inTalk(2000).slice(0, -1), { held })).toEqual([])
  })

  it('a final result is sooner', () => {
    const lines: readonly AmidLine[] = [
      ['p', 2000, '[unk] band on', TALK],
      ['f', 2400, '[unk] band on [unk]', TALK],
    ]
    expect(hearAmid(lines, { held })).toEqual([{ ...BAND_ON, early: false }])
  })

  it('acts once for one utterance', () => {
    const lines: readonly AmidLine[] = [
      ...inTalk(2000),
      ['p', 3600, '[unk] band on [unk] band on', TALK],
      ['f', 4000, '[unk] band on [unk] band on', TALK],
    ]
    expect(hearAmid(lines, { held })).toHaveLength(1)
  })

  it('does not act on what was said before the press, or long after the release', () => {
    expect(hearAmid(inTalk(1200), { held })).toEqual([])
    expect(hearAmid(inTalk(3000), { held: { from_ms: 1000, to_ms: 2000 } })).toEqual([])
  })

  it('acts on what was said just before the release', () => {
    expect(hearAmid(inTalk(2500), { held: { from_ms: 1000, to_ms: 2000 } })).toMatchObject([
      BAND_ON,
    ])
  })

  it('does not act on a single word amid talk, nor where two phrases stand', () => {
    expect(hearAmid([['f', 2000, '[unk] yes [unk]', TALK]], { held })).toEqual([])
    expect(hearAmid([['f', 2000, 'band on [unk] mixing done', TALK]], { held })).toEqual([])
  })

  it('is taken back where the final result heard another phrase or none', () => {
    expect(
      hearAmid([...inTalk(2000), ['f', 4000, '[unk] label wrong [unk]', TALK]], { held }),
    ).toMatchObject([BAND_ON, { kind: 'undo', meant: { key: 'labelWrong' } }])
    expect(hearAmid([...inTalk(2000), ['f', 4000, '[unk]', TALK]], { held })).toMatchObject([
      BAND_ON,
      { kind: 'undo' },
    ])
  })

  it('does nothing while our own prompt began the utterance', () => {
    expect(hearAmid(inTalk(2000), { held, speaking: true })).toEqual([])
  })

  it('answers what patients ask as well', () => {
    const toUsOnly = new Set(['how long'])
    expect(hearAmid([['f', 2000, 'how long', TALK]], { held, toUsOnly })).toMatchObject([
      { kind: 'accept', held: true },
    ])
  })
})

describe('where they must be held open', () => {
  const heldRequired = true
  const alone: readonly AmidLine[] = [
    ['p', 2000, 'band on', { quiet_ms: 200, spoken_ms: 500 }],
    ['p', 2100, 'band on', { quiet_ms: 300, spoken_ms: 500 }],
  ]
  it('a phrase acts while they are, and does nothing otherwise', () => {
    expect(hearAmid(alone, { heldRequired, held })).toEqual([{ ...BAND_ON, early: true }])
    expect(hearAmid(alone, { heldRequired })).toEqual([])
    expect(hearAmid([['f', 2500, 'band on']], { heldRequired })).toEqual([
      { kind: 'refuse', phrase: 'band on', why: 'notHeld' },
    ])
    expect(hearAmid([['f', 2500, '[unk] band on']], { heldRequired })).toEqual([])
  })

  it('what stops acts at any time, alone and amid talk', () => {
    expect(hearAmid([['f', 2500, 'stop everything']], { heldRequired })).toMatchObject([
      { kind: 'accept', key: 'stopEverything' },
    ])
    expect(hearAmid([['f', 2500, '[unk] feeling faint [unk]']], { heldRequired })).toMatchObject([
      { kind: 'accept', key: 'faint' },
    ])
  })

  it('what followed it in one breath without being held does nothing of its own', () => {
    const stop: AmidLine = ['p', 2000, 'stop everything', { quiet_ms: 200, spoken_ms: 800 }]
    const stood: AmidLine = ['p', 2100, 'stop everything', { quiet_ms: 300, spoken_ms: 800 }]
    const lines: readonly AmidLine[] = [stop, stood, ['f', 3000, 'stop everything band on']]
    expect(hearAmid(lines, { heldRequired })).toMatchObject([{ key: 'stopEverything' }])
    expect(hearAmid(lines, {})).toMatchObject([{ key: 'stopEverything' }, { key: 'bandOn' }])
    const other: readonly AmidLine[] = [stop, stood, ['f', 3000, 'band on']]
    expect(hearAmid(other, { heldRequired })).toEqual([
      { kind: 'accept', key: 'stopEverything', phrase: 'stop everything', early: true },
      { kind: 'undo', key: 'stopEverything', phrase: 'stop everything', instead: 'band on' },
    ])
  })
})
