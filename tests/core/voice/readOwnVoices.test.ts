import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { boundPeople, MOST_PEOPLE } from '../../../src/core/voice/boundPeople.ts'
import { afterCheck, afterDraw, noVoice, type OwnVoice } from '../../../src/core/voice/ownVoice.ts'
import { choosing, neverAsking, resting } from '../../../src/core/voice/rankWordings.ts'
import { ownVoicesText, readOwnVoices } from '../../../src/core/voice/readOwnVoices.ts'

const BOOK = { bandOff: ['band released', 'band is off'], bandOn: ['band on', 'band in place'] }
const SALT = '0'.repeat(32)
const ADA = 'a'.repeat(32)
const BO = 'b'.repeat(32)
const DAY = '2026-11-28'

const learned = (): OwnVoice => {
  const trial = { key: 'bandOff', phrase: 'band is off', isHeard: true }
  const levels = { room_dBFS: -55, speech_dBFS: -20 }
  const checked = afterCheck(noVoice(DAY), { trials: [trial], levels }, DAY)
  const drawn = afterDraw(checked, [{ key: 'bandOn', phrase: 'band on', isTakenBack: true }], DAY)
  return neverAsking(resting(choosing(drawn, 'bandOff', 'band is off'), 'bandOn'), 'bandOn')
}
const VOICES = { salt: SALT, people: { [ADA]: learned(), [BO]: noVoice(DAY) } }

describe('what is kept of voices', () => {
  it('comes back as it was', () => {
    expect(readOwnVoices(ownVoicesText(VOICES), BOOK)).toEqual({ value: VOICES, faults: [] })
  })

  it('is nothing, and no fault, where nothing was ever kept', () => {
    expect(readOwnVoices(undefined, BOOK)).toEqual({ value: undefined, faults: [] })
    expect(readOwnVoices('', BOOK)).toEqual({ value: undefined, faults: [] })
  })

  it('forgets what the site no longer says, which is no fault', () => {
    const { value, faults } = readOwnVoices(ownVoicesText(VOICES), { bandOff: ['band released'] })
    expect(faults).toEqual([])
    expect(value?.people[ADA]).toMatchObject({
      counts: { bandOff: {} },
      chosen: {},
      rests: {},
      never: [],
    })
  })

  it.each<[string, string]>([
    ['no JSON', '{'],
    ['of another version', JSON.stringify({ version: 2, ...VOICES })],
    ['without its salt', JSON.stringify({ version: 1, people: VOICES.people })],
    ['a list', '[]'],
  ])('is forgotten whole and told when it is %s', (_, text) => {
    expect(readOwnVoices(text, BOOK)).toEqual({ value: undefined, faults: ['unread'] })
  })

  it.each<[string, (voice: OwnVoice) => unknown]>([
    ['no person', () => 7],
    ['a part above its whole', (v) => ({ ...v, counts: { bandOff: { 'band is off': { asked: 1, heard: 2, acted: 0, takenBack: 0 } } } })], // prettier-ignore
    ['half a number', (v) => ({ ...v, counts: { bandOff: { 'band is off': { asked: 1.5, heard: 1, acted: 0, takenBack: 0 } } } })], // prettier-ignore
    ['too many counts', (v) => ({ ...v, counts: { bandOff: { 'band is off': { asked: 900, heard: 1, acted: 0, takenBack: 0 } } } })], // prettier-ignore
    ['a level above full scale', (v) => ({ ...v, levels: [{ room_dBFS: -50, speech_dBFS: 6 }] })],
    ['too many levels', (v) => ({ ...v, levels: Array(9).fill({ room_dBFS: -50, speech_dBFS: -6 }) })], // prettier-ignore
    ['no day', (v) => ({ ...v, usedOn: 'lately' })],
    ['a rest without end', (v) => ({ ...v, rests: { bandOn: 1e6 } })],
    ['no list of commands', (v) => ({ ...v, never: 'bandOn' })],
  ])('forgets a person with %s, tells it and keeps the others', (_, damage) => {
    const people = { [ADA]: damage(learned()), [BO]: learned() }
    const { value, faults } = readOwnVoices(
      JSON.stringify({ version: 1, salt: SALT, people }),
      BOOK,
    )
    expect(faults).toEqual(['unread'])
    expect(Object.keys(value?.people ?? {})).toEqual([BO])
  })

  it('never throws, and never takes in what it would not write', () => {
    const value = fc.oneof(fc.json(), fc.string(), fc.jsonValue().map((people) => JSON.stringify({ version: 1, salt: SALT, people: { [ADA]: people } }))) // prettier-ignore
    fc.assert(
      fc.property(value, (text) => {
        const { value: voices } = readOwnVoices(text, BOOK)
        if (voices) expect(readOwnVoices(ownVoicesText(voices), BOOK).value).toEqual(voices)
      }),
    )
  })
})

describe('people on one device', () => {
  it('are bounded: who has learned nothing for the longest makes room', () => {
    const people = Object.fromEntries(
      Array.from({ length: MOST_PEOPLE + 3 }, (_, i) => [
        `p${i}`,
        noVoice(`2026-11-${String((i % 27) + 1).padStart(2, '0')}`),
      ]),
    )
    const left = boundPeople(people)
    expect(Object.keys(left)).toHaveLength(MOST_PEOPLE)
    expect(Object.values(left).filter(({ usedOn }) => usedOn === '2026-11-01')).toHaveLength(0)
    expect(boundPeople(left)).toBe(left)
  })
})
