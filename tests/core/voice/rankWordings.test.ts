import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { noVoice, type OwnVoice, type WordingCounts } from '../../../src/core/voice/ownVoice.ts'
import {
  choosing,
  isOftenTakenBack,
  LEAST_ACTS,
  LEAST_TRIES,
  neverAsking,
  rankWordings,
  resetting,
  resting,
  wordingOffer,
} from '../../../src/core/voice/rankWordings.ts'

const KEY = 'bandOff'
const WORDINGS = ['band released', 'band is off']
const BOOK = { [KEY]: WORDINGS }
const [A, B] = WORDINGS as [string, string]

const counts = (asked: number, heard: number, acted = 0, takenBack = 0): WordingCounts => ({
  ...{ asked, heard, acted, takenBack },
})
const voiceWith = (a: WordingCounts, b: WordingCounts, key = KEY): OwnVoice => ({
  ...noVoice('2026-11-28'),
  counts: { [key]: { [A]: a, [B]: b } },
})

describe('the order of wordings', () => {
  it.each<[string, WordingCounts, WordingCounts, string]>([
    ['nothing is known', counts(0, 0), counts(0, 0), A],
    ['the second is heard and the first is not', counts(3, 0), counts(3, 3), B],
    ['three of three stand against one of three', counts(3, 1), counts(3, 3), B],
    ['three of three stand against two of three', counts(3, 2), counts(3, 3), A],
    ['the first was said too rarely', counts(LEAST_TRIES - 1, 0), counts(9, 9), A],
    ['the second was said too rarely', counts(9, 0), counts(LEAST_TRIES - 1, 2), A],
    ['both are heard always', counts(40, 40), counts(40, 40), A],
    ['both are heard never', counts(40, 0), counts(40, 0), A],
  ])('when %s', (_, a, b, first) => {
    expect(rankWordings(voiceWith(a, b), KEY, WORDINGS)[0]).toBe(first)
  })

  it('is what a person chose, whatever is heard better', () => {
    const voice = choosing(voiceWith(counts(3, 0), counts(3, 3)), KEY, A)
    expect(rankWordings(voice, KEY, WORDINGS)).toEqual([A, B])
    expect(rankWordings(choosing(voice, KEY, 'no wording of ours'), KEY, WORDINGS)).toEqual([B, A])
  })

  it('loses no wording and adds none, and puts none ahead of one that is heard as well', () => {
    const one = fc
      .integer({ min: 0, max: 40 })
      .chain((asked) => fc.integer({ min: 0, max: asked }).map((heard) => counts(asked, heard)))
    fc.assert(
      fc.property(fc.array(one, { minLength: 1, maxLength: 5 }), (all) => {
        const names = all.map((_, i) => `wording ${i}`)
        const voice: OwnVoice = {
          ...noVoice('2026-11-28'),
          counts: { k: Object.fromEntries(all.map((each, i) => [names[i]!, each])) },
        }
        const ranked = rankWordings(voice, 'k', names)
        expect([...ranked].sort()).toEqual([...names].sort())
        const first = all[names.indexOf(ranked[0]!)]!
        const site = all[0]!
        if (first !== site) {
          expect(first.heard / first.asked).toBeGreaterThan(site.heard / Math.max(1, site.asked))
        }
      }),
    )
  })
})

describe('what is offered after a draw', () => {
  const failing = voiceWith(counts(0, 0, 8, 4), counts(0, 0))

  it('is the other wording where the one shown first is often taken back', () => {
    expect(wordingOffer(failing, BOOK)).toEqual({
      key: KEY,
      from: A,
      to: B,
      acted: 8,
      takenBack: 4,
    })
  })

  it.each<[string, OwnVoice]>([
    ['there were few acts', voiceWith(counts(0, 0, LEAST_ACTS - 1, LEAST_ACTS - 1), counts(0, 0))],
    ['few of many were taken back', voiceWith(counts(0, 0, 30, 6), counts(0, 0))],
    ['the other fails as well', voiceWith(counts(0, 0, 8, 4), counts(0, 0, 8, 5))],
    ['the other is heard worse', voiceWith(counts(5, 5, 8, 4), counts(5, 0))],
    ['it was offered lately', resting(failing, KEY)],
    ['the person wants to hear of it no more', neverAsking(failing, KEY)],
    ['the other was chosen', choosing(failing, KEY, B)],
    ['the site has no other', { ...failing, counts: { [KEY]: { [A]: counts(0, 0, 8, 8) } } }],
  ])('is nothing when %s', (why, voice) => {
    const book = why.startsWith('the site') ? { [KEY]: [A] } : BOOK
    expect(wordingOffer(voice, book)).toBeUndefined()
  })

  it('is one at a time, the worst first', () => {
    const voice = {
      ...failing,
      counts: { ...failing.counts, bandOn: { 'band on': counts(0, 0, 8, 7) } },
    }
    expect(wordingOffer(voice, { ...BOOK, bandOn: ['band on', 'band in place'] })?.key).toBe(
      'bandOn',
    )
  })

  it('never goes to and fro: what was accepted is not offered back while the other fails', () => {
    const accepted = choosing(failing, KEY, B)
    const later = {
      ...accepted,
      counts: { [KEY]: { [A]: counts(0, 0, 8, 4), [B]: counts(0, 0, 9, 5) } },
    }
    expect(isOftenTakenBack(later, KEY, B)).toBe(true)
    expect(wordingOffer(later, BOOK)).toBeUndefined()
  })

  it('can be undone by the person', () => {
    const voice = neverAsking(choosing(failing, KEY, B), KEY)
    expect(resetting(voice, KEY)).toEqual(failing)
  })
})
