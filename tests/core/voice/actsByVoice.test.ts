import { describe, expect, it } from 'vitest'
import { actsByVoice, NOTICED_ms } from '../../../src/core/voice/actsByVoice.ts'
import { logOf, sampleLog, sampleOpening, type Line } from '../../support/sampleLog.ts'

const BOOK = {
  confirmConsent: ['consent given', 'consent confirmed'],
  bandOn: ['band on'],
  confirmYes: ['yes'],
  one: ['said by two'],
  two: ['said by two'],
}
const CONSENT = { type: 'consentGiven' } as const
const byVoice = (heard: string) => ({ source: 'voice', heard }) as const

const acts = (...lines: readonly Line[]) =>
  actsByVoice(logOf([[0, sampleOpening(), { source: 'app' }], ...lines]).entries, BOOK)

describe('acts by voice', () => {
  it('are counted by wording', () => {
    expect(acts([10, CONSENT, byVoice('consent confirmed')]).get('c1')).toEqual([
      { key: 'confirmConsent', phrase: 'consent confirmed', isTakenBack: false },
    ])
  })

  it('are none by touch, none of words that the site does not have, and none of an answer', () => {
    expect(
      acts(
        [10, CONSENT, { source: 'touch' }],
        [11, CONSENT, byVoice('consent perhaps')],
        [12, CONSENT, byVoice('yes')],
        [13, CONSENT, byVoice('said by two')],
      ).size,
    ).toBe(0)
  })

  it('are taken back by an entry soon after, whatever confirmed that', () => {
    const undone = { type: 'entryUndone', seq: 2 } as const
    const soon = NOTICED_ms / 1000
    const taken = (at_s: number) =>
      acts([10, CONSENT, byVoice('consent given')], [at_s, undone, { source: 'touch' }]).get('c1')
    expect(taken(10 + soon)).toMatchObject([{ isTakenBack: true }])
    expect(taken(11 + soon)).toMatchObject([{ isTakenBack: false }])
  })

  it('are one where a moment made several entries', () => {
    const found = acts(
      [
        10,
        { type: 'identifierChecked', identifier: 'fullName', matches: true },
        byVoice('band on'),
      ],
      [
        10,
        { type: 'identifierChecked', identifier: 'birthDate', matches: true },
        byVoice('band on'),
      ],
      [12, { type: 'entryUndone', seq: 3 }, { source: 'voice', heard: 'go back' }],
      [12, { type: 'entryUndone', seq: 2 }, { source: 'voice', heard: 'go back' }],
    )
    expect(found.get('c1')).toEqual([{ key: 'bandOn', phrase: 'band on', isTakenBack: true }])
  })

  it('belong to the person who drew at that moment', () => {
    const found = acts(
      [10, CONSENT, { ...byVoice('consent given'), by: 'ada' }],
      [20, { type: 'entryUndone', seq: 2 }, { source: 'touch', by: 'bo' }],
      [30, CONSENT, { ...byVoice('consent confirmed'), by: 'bo' }],
    )
    expect(found.get('ada')).toMatchObject([{ isTakenBack: true }])
    expect(found.get('bo')).toMatchObject([{ phrase: 'consent confirmed', isTakenBack: false }])
  })

  it('are found in a whole draw of the shipped wordings', () => {
    expect(actsByVoice(sampleLog().entries, BOOK).get('c1')).toContainEqual({
      ...{ key: 'confirmConsent', phrase: 'consent given', isTakenBack: false },
    })
  })
})
