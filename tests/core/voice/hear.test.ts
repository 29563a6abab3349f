import { describe, expect, it } from 'vitest'
import { hear, holdOver } from '../../../src/core/voice/hear.ts'
import { HEAR_START } from '../../../src/core/voice/hearing.ts'
import { HEAR_RULES } from '../../../src/core/voice/hearRules.ts'
import { H, listen, quiet, speaking, type Line } from '../../support/hearLines.ts'

describe('early acts', () => {
  it('acts on a partial that has stood for the hold', () => {
    expect(
      listen([
        ['p', 0, 'band'],
        ['p', 100, 'band on'],
        ['p', 100 + H, 'band on'],
      ]),
    ).toEqual([{ kind: 'accept', key: 'bandOn', phrase: 'band on', early: true }])
  })

  it('acts when the hold ends though nothing more was delivered', () => {
    expect(
      listen([
        ['p', 100, 'band on'],
        ['w', 100 + H],
      ]),
    ).toHaveLength(1)
    expect(
      listen([
        ['p', 100, 'band on'],
        ['w', 100 + H - 1],
      ]),
    ).toEqual([])
  })

  it('does not act when speech went on within the hold', () => {
    expect(
      listen([
        ['p', 100, 'band on'],
        ['p', 200, 'band on [unk]'],
        ['w', 100 + H],
        ['f', 900, 'band on [unk]'],
      ]),
    ).toEqual([])
  })

  it('waits where a longer phrase has the same start, and then takes the final', () => {
    expect(
      listen([
        ['p', 100, 'label'],
        ['w', 2000],
      ]),
    ).toEqual([])
    expect(
      listen([
        ['p', 100, 'label'],
        ['f', 800, 'label'],
      ]),
    ).toMatchObject([{ key: 'labelMatches', early: false }])
    expect(
      listen([
        ['p', 100, 'label'],
        ['p', 200, 'label wrong'],
        ['w', 200 + H],
      ]),
    ).toMatchObject([{ key: 'labelWrong' }])
  })

  it('acts once for one utterance', () => {
    expect(
      listen([
        ['p', 0, 'band on'],
        ['w', H],
        ['p', 500, 'band on'],
        ['p', 900, 'band on'],
        ['f', 1000, 'band on'],
      ]),
    ).toHaveLength(1)
  })

  it('does not act on a phrase that closed while it was held', () => {
    const state = hear(
      HEAR_START,
      { text: 'band on', final: false, utterance: 1, mono_ms: 0 },
      quiet,
    ).state
    expect(holdOver(state, H, { ...quiet, open: new Map() }).outcome).toBeUndefined()
  })
})

describe('not fooled', () => {
  it.each([
    ['[unk]'],
    ['[unk] band on'],
    ['band on [unk]'],
    ['[unk] band on [unk]'],
    ['on band'],
    [''],
  ])('does nothing on "%s"', (text) => expect(listen([['f', 900, text]])).toEqual([]))

  it('asks again on part of a phrase, but not in the middle of talk', () => {
    expect(listen([['f', 900, 'complete']])).toEqual([{ kind: 'unclear', text: 'complete' }])
    expect(listen([['f', 900, '[unk] complete']])).toEqual([])
  })

  it('does not take its own prompt for the person', () => {
    expect(
      listen(
        [
          ['p', 0, 'band on'],
          ['w', H],
          ['f', 900, 'band on'],
        ],
        speaking,
      ),
    ).toMatchObject([{ kind: 'refuse', why: 'speaking' }])
  })

  it('still takes the person whose words were under way before the prompt began', () => {
    const begun = hear(
      HEAR_START,
      { text: 'band', final: false, utterance: 1, mono_ms: 0 },
      quiet,
    ).state
    const ended = hear(
      begun,
      { text: 'band on', final: true, utterance: 1, mono_ms: 700 },
      speaking,
    )
    expect(ended.outcome).toMatchObject({ kind: 'accept', key: 'bandOn' })
  })

  it('does not act on speech that is hardly louder than the room, or that the engine doubts', () => {
    const soft = hear(
      HEAR_START,
      { text: 'band on', final: true, utterance: 1, mono_ms: 0, level_dB: 1 },
      quiet,
    )
    expect(soft.outcome).toMatchObject({ kind: 'refuse', why: 'tooSoft' })
    const partial = { text: 'band on', final: false, utterance: 1, mono_ms: 0, level_dB: 1 }
    expect(holdOver(hear(HEAR_START, partial, quiet).state, H, quiet).outcome).toBeUndefined()
    const loud = hear(HEAR_START, { ...partial, level_dB: 20 }, quiet).state
    expect(holdOver(loud, H, quiet).outcome).toMatchObject({ kind: 'accept' })
    const unsure = hear(
      HEAR_START,
      { text: 'band on', final: true, utterance: 1, mono_ms: 0, confidence: 0.2 },
      quiet,
    )
    expect(unsure.outcome).toMatchObject({ kind: 'refuse', why: 'unsure' })
  })
})

describe('safety phrases', () => {
  it('act sooner than others', () => {
    const at = HEAR_RULES.holdSafety_ms
    expect(at).toBeLessThan(H)
    expect(
      listen([
        ['p', 0, 'stop everything'],
        ['w', at],
      ]),
    ).toMatchObject([{ key: 'stopEverything', early: true }])
  })

  it('act while a prompt plays and in the middle of a sentence', () => {
    expect(
      listen(
        [
          ['p', 0, 'feeling faint'],
          ['w', 80],
        ],
        speaking,
      ),
    ).toMatchObject([{ key: 'faint' }])
    expect(listen([['f', 900, '[unk] feeling faint [unk]']])).toMatchObject([{ key: 'faint' }])
  })

  it('give way only to another phrase that is heard word for word', () => {
    const early: Line[] = [
      ['p', 0, 'feeling faint'],
      ['w', 80],
    ]
    expect(listen([...early, ['f', 900, 'band on']])).toMatchObject([
      { key: 'faint' },
      { kind: 'undo', key: 'faint', meant: { key: 'bandOn' } },
    ])
    for (const text of ['[unk]', 'band on [unk]', 'feeling', ''])
      expect(listen([...early, ['f', 900, text]]), text).toHaveLength(1)
  })

  it('are not taken back by a final that heard more', () => {
    expect(
      listen([
        ['p', 0, 'feeling faint'],
        ['w', 80],
        ['f', 900, '[unk] label'],
      ]),
    ).toHaveLength(1)
  })
})
