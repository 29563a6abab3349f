import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  afterCheck,
  afterDraw,
  countsOf,
  MOST_COUNTED,
  MOST_LEVELS,
  noVoice,
  type OwnVoice,
} from '../../../src/core/voice/ownVoice.ts'
import { resting } from '../../../src/core/voice/rankWordings.ts'

const DAY = '2026-11-28'
const trial = (phrase: string, isHeard: boolean) => ({ key: 'bandOff', phrase, isHeard })
const act = (phrase: string, isTakenBack: boolean) => ({ key: 'bandOff', phrase, isTakenBack })

describe('what is learned of a voice', () => {
  it('counts what was asked for and heard, and what acted and was taken back, by wording', () => {
    let voice = afterCheck(noVoice(DAY), { trials: [trial('a', true), trial('a', false)] }, DAY)
    voice = afterDraw(voice, [act('a', false), act('b', true)], '2026-11-29')
    expect(countsOf(voice, 'bandOff', 'a')).toEqual({ asked: 2, heard: 1, acted: 1, takenBack: 0 })
    expect(countsOf(voice, 'bandOff', 'b')).toEqual({ asked: 0, heard: 0, acted: 1, takenBack: 1 })
    expect(countsOf(voice, 'constructor', 'name')).toEqual({ asked: 0, heard: 0, acted: 0, takenBack: 0 }) // prettier-ignore
    expect(voice.usedOn).toBe('2026-11-29')
  })

  it('never counts beyond its bound, and never a part above its whole', () => {
    const step = fc.record({
      isCheck: fc.boolean(),
      isGood: fc.boolean(),
      n: fc.integer({ min: 1, max: 90 }),
    })
    fc.assert(
      fc.property(fc.array(step, { maxLength: 6 }), (steps) => {
        const voice = steps.reduce<OwnVoice>((so, { isCheck, isGood, n }) => {
          const many = Array.from({ length: n })
          return isCheck
            ? afterCheck(so, { trials: many.map(() => trial('a', isGood)) }, DAY)
            : afterDraw(
                so,
                many.map(() => act('a', isGood)),
                DAY,
              )
        }, noVoice(DAY))
        const { asked, heard, acted, takenBack } = countsOf(voice, 'bandOff', 'a')
        expect(Math.max(asked, acted)).toBeLessThanOrEqual(MOST_COUNTED)
        expect(heard).toBeLessThanOrEqual(asked)
        expect(takenBack).toBeLessThanOrEqual(acted)
      }),
    )
  })

  it('lets what is new outweigh what was long ago', () => {
    const many = (isHeard: boolean, n: number) =>
      Array.from({ length: n }, () => trial('a', isHeard))
    const bad = afterCheck(noVoice(DAY), { trials: many(false, MOST_COUNTED) }, DAY)
    const good = afterCheck(bad, { trials: many(true, MOST_COUNTED) }, DAY)
    const { asked, heard } = countsOf(good, 'bandOff', 'a')
    expect(heard / asked).toBeGreaterThan(0.6)
  })

  it('keeps the levels of the latest checks', () => {
    const voice = Array.from({ length: MOST_LEVELS + 2 }).reduce<OwnVoice>(
      (so, _, i) =>
        afterCheck(so, { trials: [], levels: { room_dBFS: -50 - i, speech_dBFS: -20 } }, DAY),
      noVoice(DAY),
    )
    expect(voice.levels.map(({ room_dBFS }) => room_dBFS)).toEqual([-52, -53, -54, -55, -56])
  })

  it('rests a command for draws, not for checks', () => {
    const rested = resting(noVoice(DAY), 'bandOff')
    const before = rested.rests.bandOff!
    expect(afterCheck(rested, { trials: [] }, DAY).rests.bandOff).toBe(before)
    const left = Array.from({ length: before }).reduce<OwnVoice>(
      (so) => afterDraw(so, [], DAY),
      rested,
    )
    expect(left.rests).toEqual({})
  })
})
