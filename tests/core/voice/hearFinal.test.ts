import { describe, expect, it } from 'vitest'
import { hear, holdOver } from '../../../src/core/voice/hear.ts'
import { HEAR_START, type HearContext } from '../../../src/core/voice/hearing.ts'
import { H, listen, open, quiet, type Line } from '../../support/hearLines.ts'

describe('final results', () => {
  it('act where nothing has yet', () => {
    expect(listen([['f', 900, 'tube complete']])).toEqual([
      { kind: 'accept', key: 'tubeFull', phrase: 'tube complete', early: false },
    ])
  })

  it('take an early act back when they heard something else', () => {
    expect(
      listen([
        ['p', 0, 'band on'],
        ['w', H],
        ['f', 1000, 'mixing done'],
      ]),
    ).toMatchObject([
      { kind: 'accept', key: 'bandOn' },
      { kind: 'undo', key: 'bandOn', instead: 'mixing done', meant: { key: 'tubeMixed' } },
    ])
  })

  it('know what was meant though the draw has moved on since', () => {
    const acted = holdOver(
      hear(HEAR_START, { text: 'band on', final: false, utterance: 1, mono_ms: 0 }, quiet).state,
      H,
      quiet,
    ).state
    const moved: HearContext = { ...quiet, open: new Map([['tube complete', 'tubeFull']]) }
    const heard = { text: 'mixing done', final: true, utterance: 1, mono_ms: 900 }
    expect(hear(acted, heard, moved).outcome).toMatchObject({
      kind: 'undo',
      meant: { key: 'tubeMixed' },
    })
  })

  it('leave an early act alone when they heard another wording of it', () => {
    const both: HearContext = { ...quiet, open: new Map([...open, ['band in place', 'bandOn']]) }
    const lines: Line[] = [
      ['p', 0, 'band on'],
      ['w', H],
      ['f', 1000, 'band in place'],
    ]
    expect(listen(lines, both)).toHaveLength(1)
  })

  it('take an early act back when all they heard was unknown', () => {
    expect(
      listen([
        ['p', 0, 'band on'],
        ['w', H],
        ['f', 1000, '[unk] [unk]'],
      ]),
    ).toMatchObject([{ key: 'bandOn' }, { kind: 'undo', instead: '[unk] [unk]' }])
  })

  it.each(['band', 'on', 'band complete'])(
    'leave an early act alone when they lost a word of it: "%s"',
    (text) =>
      expect(
        listen([
          ['p', 0, 'band on'],
          ['w', H],
          ['f', 1000, text],
        ]),
      ).toHaveLength(1),
  )

  it('leave an early act alone when only unknown sound came after it', () => {
    expect(
      listen([
        ['p', 0, 'band on'],
        ['w', H],
        ['f', 1000, 'band on [unk]'],
      ]),
    ).toHaveLength(1)
    expect(
      listen([
        ['p', 0, 'band on'],
        ['w', H],
        ['f', 1000, ''],
      ]),
    ).toHaveLength(1)
  })

  it('take a second phrase said in the same breath', () => {
    expect(
      listen([
        ['p', 0, 'mixing done'],
        ['w', H],
        ['f', 1000, 'mixing done tube complete'],
      ]),
    ).toMatchObject([{ key: 'tubeMixed' }, { key: 'tubeFull', early: false }])
  })

  it('that come late still take back what their utterance did, and nothing else', () => {
    const early: Line[] = [
      ['p', 0, 'band on', 1],
      ['w', H],
      ['p', 500, 'tube', 2],
    ]
    expect(listen([...early, ['f', 700, 'mixing done', 1]])).toMatchObject([
      { kind: 'accept' },
      { kind: 'undo' },
    ])
    expect(
      listen([...early, ['f', 700, 'band on', 1], ['f', 900, 'tube complete', 2]]),
    ).toMatchObject([{ key: 'bandOn' }, { key: 'tubeFull' }])
  })

  it('do not count an old early act against the next utterance', () => {
    expect(
      listen([
        ['p', 0, 'band on', 1],
        ['w', H],
        ['f', 900, 'tube complete', 2],
      ]),
    ).toMatchObject([
      { kind: 'accept', key: 'bandOn' },
      { kind: 'accept', key: 'tubeFull' },
    ])
  })
})
