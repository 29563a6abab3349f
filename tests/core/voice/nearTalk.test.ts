import { describe, expect, it } from 'vitest'
import { FAR, hearAmid, NEAR, TALK, UNSURE, type AmidLine } from '../../support/amidLines.ts'

/** Talk of somebody else, then a phrase that was begun at 1260 ms and ended at 1860. */
const behindTalk = (levels: object): readonly AmidLine[] => [
  ['p', 800, '[unk]', TALK],
  ['p', 1200, '[unk]', TALK],
  ['p', 2000, '[unk] band on', levels],
  ['p', 2100, '[unk] band on', levels],
]
const ended = (levels: object): readonly AmidLine[] => [
  ...behindTalk(levels),
  ['f', 2500, '[unk] band on', levels],
]
const BAND_ON = { kind: 'accept', key: 'bandOn', phrase: 'band on' } as const

describe('a phrase behind other talk', () => {
  it('acts once it has stood where it is clearly nearer and done', () => {
    expect(hearAmid(behindTalk(NEAR))).toEqual([{ ...BAND_ON, early: true }])
  })

  it('acts by its final result too', () => {
    expect(hearAmid([['p', 800, '[unk]', TALK], ['f', 2000, '[unk] band on', NEAR]])).toEqual([
      { ...BAND_ON, early: false },
    ]) // prettier-ignore
  })

  it('acts once', () => {
    expect(hearAmid(ended(NEAR))).toHaveLength(1)
  })

  it('does nothing where it is as loud as the talk', () => {
    expect(hearAmid(ended(FAR))).toEqual([])
  })

  it('is asked for again where that is unsure, and never acts', () => {
    expect(hearAmid(ended(UNSURE))).toEqual([{ kind: 'again', phrase: 'band on' }])
  })

  it('does nothing where talk and phrase are of one breath: "do I need a bandage on it"', () => {
    expect(
      hearAmid([
        ['p', 1500, '[unk]', { ...NEAR, quiet_ms: 0, spoken_ms: 300 }],
        ['p', 2000, '[unk] band on', NEAR],
        ['f', 2500, '[unk] band on', { ...NEAR, quiet_ms: 740 }],
      ]),
    ).toEqual([])
  })

  it('does nothing without levels, as before', () => {
    expect(hearAmid(ended({}))).toEqual([])
    expect(hearAmid(ended({ quiet_ms: 240, spoken_ms: 600 }))).toEqual([])
  })

  it('does nothing where it is a single word: that is in too much else', () => {
    expect(hearAmid([['p', 800, '[unk]', TALK], ['p', 2000, '[unk] yes', NEAR], ['p', 2100, '[unk] yes', NEAR], ['f', 2500, '[unk] yes', NEAR]])).toEqual([]) // prettier-ignore
  })

  it('does nothing while our own prompt began it', () => {
    expect(hearAmid(ended(NEAR), { speaking: true })).toMatchObject([
      { kind: 'refuse', why: 'speaking' },
    ])
  })

  it('is none of two: nobody knows which was meant', () => {
    const both = '[unk] band on mixing done'
    expect(hearAmid([['p', 800, '[unk]', TALK], ['p', 2000, both, NEAR], ['p', 2200, both, NEAR], ['f', 2500, both, NEAR]])).toEqual([]) // prettier-ignore
  })

  it('is taken back where the final result heard only talk, or another phrase', () => {
    const wrong = (text: string): readonly AmidLine[] => [...behindTalk(NEAR), ['f', 2500, text]]
    expect(hearAmid(wrong('[unk] [unk]'))).toMatchObject([BAND_ON, { kind: 'undo' }])
    expect(hearAmid(wrong('[unk] label wrong'))).toMatchObject([
      BAND_ON,
      { kind: 'undo', meant: { key: 'labelWrong' } },
    ])
    expect(hearAmid(wrong('[unk] band on [unk]'))).toMatchObject([BAND_ON])
  })
})

describe('a phrase over talk that goes on behind it', () => {
  const over = (levels: object, own_dBFS?: number) =>
    hearAmid(
      [
        ['p', 800, 'label', TALK],
        ['p', 1700, 'label band on', { ...levels, quiet_ms: 0 }],
        ['p', 2000, 'label band on [unk]', levels],
        ['p', 2100, 'label band on [unk]', { ...levels, quiet_ms: 340 }],
        ['f', 2900, 'label band on [unk]', TALK],
      ],
      { own_dBFS },
    )
  const behind = { ...NEAR, before_dB: -10 }

  it('acts whatever stands around it, where it is as loud as we are', () => {
    expect(over(behind, -20)).toEqual([{ ...BAND_ON, early: true }])
  })

  it('does nothing where nobody knows yet how loud we are', () => {
    expect(over(behind)).toEqual([])
  })

  it('is asked for again where it is softer than ours, and never acts', () => {
    const outcomes = over({ ...behind, speech_dBFS: -25 }, -20)
    expect(outcomes.filter(({ kind }) => kind !== 'again')).toEqual([])
  })

  it('does nothing in a quiet room: "is the band on", however loud', () => {
    expect(over({ ...NEAR, before_dB: -40 }, -20)).toEqual([])
  })

  it('does nothing within a sentence of somebody as near', () => {
    expect(over({ ...behind, spoken_ms: 1200 }, -20)).toEqual([])
  })
})

describe('a phrase before other talk', () => {
  const before = (levels: object, then: object): readonly AmidLine[] => [
    ['p', 2000, 'band on', { ...levels, quiet_ms: 0 }],
    ['p', 2300, 'band on [unk]', TALK],
    ['f', 4000, 'band on [unk]', { ...TALK, ...then }],
  ]
  it('is asked for again where it was louder than what came behind it', () => {
    expect(hearAmid(before(NEAR, { speech_dBFS: -30 }))).toEqual([
      { kind: 'again', phrase: 'band on' },
    ])
  })
  it('does nothing where all of it was as loud, or it was far', () => {
    expect(hearAmid(before(NEAR, { speech_dBFS: -20 }))).toEqual([])
    expect(hearAmid(before(FAR, { speech_dBFS: -30 }))).toEqual([])
  })
})

describe('what patients ask as well', () => {
  const toUsOnly = new Set(['how long'])
  const asked = (levels: object, own_dBFS?: number) =>
    hearAmid(
      [
        ['p', 1000, 'how long', levels],
        ['p', 1100, 'how long', levels],
        ['f', 1500, 'how long', levels],
      ],
      { toUsOnly, own_dBFS },
    )
  it('is answered where it is near and as loud as we are', () => {
    expect(asked(NEAR, -21)).toMatchObject([{ kind: 'accept', early: true }])
  })
  it('is not where it is softer by far, or of the talk in the room', () => {
    expect(asked(NEAR, -8)).toEqual([{ kind: 'refuse', phrase: 'how long', why: 'notToUs' }])
    expect(asked(FAR, -20)).toEqual([{ kind: 'refuse', phrase: 'how long', why: 'notToUs' }])
  })
  it('is asked for again where nobody can tell: no levels, or our own not known yet', () => {
    expect(asked({}, -20)).toEqual([{ kind: 'again', phrase: 'how long' }])
    expect(asked(NEAR)).toEqual([{ kind: 'again', phrase: 'how long' }])
    expect(asked(NEAR, -15)).toEqual([{ kind: 'again', phrase: 'how long' }])
  })
  it('is answered without more where no needle is in', () => {
    expect(hearAmid([['f', 1500, 'how long']])).toMatchObject([{ kind: 'accept' }])
  })
})
