import { describe, expect, it } from 'vitest'
import { judgeMic, type MicFindings } from '../../../src/core/voice/judgeMic.ts'

const fine: MicFindings = {
  asked: 6,
  right: 6,
  wrong: 0,
  room_dBFS: -55,
  speech_dBFS: [-20, -22, -18, -25, -20, -21],
}

describe('judgeMic', () => {
  it('is good when all was heard well above a quiet room', () => {
    expect(judgeMic(fine)).toEqual({ verdict: 'good', reasons: [] })
  })

  it.each<[string, Partial<MicFindings>, 'fair' | 'poor', RegExp]>([
    ['one phrase not heard', { right: 5 }, 'fair', /One phrase was not heard/],
    [
      'one heard as another',
      { right: 5, wrong: 1 },
      'fair',
      /One phrase was heard as something else/,
    ],
    [
      'two heard as others',
      { right: 4, wrong: 2 },
      'poor',
      /2 phrases were heard as something else/,
    ],
    ['two not heard', { right: 4 }, 'poor', /2 phrases were not heard/],
    ['a loud room', { room_dBFS: -35 }, 'fair', /room is loud/],
    [
      'a soft voice',
      { room_dBFS: -45, speech_dBFS: [-33, -34] },
      'fair',
      /hardly louder than the room/,
    ],
    ['a voice too near', { speech_dBFS: [-1, -2, -3] }, 'fair', /too loud for the microphone/],
    ['a microphone that is gone', { trouble: 'The microphone is gone.' }, 'poor', /is gone/],
  ])('gives the reason for %s', (_, change, verdict, reason) => {
    const judged = judgeMic({ ...fine, ...change })
    expect(judged.verdict).toBe(verdict)
    expect(judged.reasons.join(' ')).toMatch(reason)
  })
})
