import { describe, expect, it } from 'vitest'
import { CHECKED, checkPlan, LEARNED, learnPlan } from '../../../src/app/voice/micCheckPlan.ts'
import { ownBook } from '../../../src/app/voice/ownBook.ts'
import { afterCheck, noVoice, type OwnVoice } from '../../../src/core/voice/ownVoice.ts'
import { openAtStep } from '../../../src/core/voice/openTogether.ts'
import { choosing, LEAST_TRIES } from '../../../src/core/voice/rankWordings.ts'
import book from '../../../src/data/en/phrases.json'

const DAY = '2026-11-28'

it.each([...CHECKED, ...LEARNED].map(({ key, step }) => [key, step] as const))(
  '%s can be said at %s, where it is asked for',
  (key, step) => expect(openAtStep(step)).toContain(key),
)

describe('the check of six phrases', () => {
  it('asks in the wording that the draw shows this person', () => {
    const voice = choosing(noVoice(DAY), 'bandOff', 'band is off')
    const asked = checkPlan(ownBook(book, voice), voice).asked.map(({ phrase }) => phrase)
    expect(asked).toHaveLength(6)
    expect(asked).toContain('band is off')
    expect(checkPlan(book, undefined).asked.map(({ phrase }) => phrase)).toContain('band released')
  })
})

describe('a round of learning', () => {
  /** Says a whole round and is heard. */
  const after = (voice: OwnVoice): OwnVoice => {
    const trials = learnPlan(book, voice).asked.map(({ key, phrase }) => ({
      ...{ key, phrase, isHeard: true },
    }))
    return afterCheck(voice, { trials }, DAY)
  }

  it('asks for six commands in all their wordings, never for two of one behind another', () => {
    const { asked } = learnPlan(book, undefined)
    const keys = asked.map(({ key }) => key)
    expect(new Set(keys).size).toBe(6)
    for (const key of new Set(keys)) {
      const said = asked.filter((each) => each.key === key).map(({ phrase }) => phrase)
      expect(said).toEqual(book.phrases[key])
    }
    expect(keys.some((key, i) => i > 0 && keys[i - 1] === key)).toBe(false)
  })

  it('comes round to every command, and then every wording can be ranked', () => {
    const rounds = Math.ceil(LEARNED.length / 6) * LEAST_TRIES
    const voice = Array.from({ length: rounds }).reduce<OwnVoice>(after, noVoice(DAY))
    const least = LEARNED.map(({ key }) =>
      Math.min(...Object.values(voice.counts[key] ?? {}).map(({ asked }) => asked)),
    )
    expect(Math.min(...least)).toBeGreaterThanOrEqual(LEAST_TRIES)
  })

  it('asks for nothing that has one wording only', () => {
    const one = {
      ...book,
      phrases: { bandOff: ['band is off'], bandOn: ['band on', 'band in place'] },
    }
    expect(learnPlan(one, undefined).asked.map(({ key }) => key)).toEqual(['bandOn', 'bandOn'])
    expect(learnPlan({ ...book, phrases: {} }, undefined).asked).toEqual([])
  })
})
