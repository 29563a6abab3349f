import { describe, expect, it } from 'vitest'
import { judgeMic, type MicFindings, type MicReason } from '../../../src/core/voice/judgeMic.ts'

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

  it.each<[string, Partial<MicFindings>, 'fair' | 'poor', MicReason]>([
    ['one phrase not heard', { right: 5 }, 'fair', { code: 'missed', n: 1 }],
    ['one heard as another', { right: 5, wrong: 1 }, 'fair', { code: 'wrong', n: 1 }],
    ['two heard as others', { right: 4, wrong: 2 }, 'poor', { code: 'wrong', n: 2 }],
    ['two not heard', { right: 4 }, 'poor', { code: 'missed', n: 2 }],
    ['a loud room', { room_dBFS: -35 }, 'fair', { code: 'loudRoom' }],
    ['a soft voice', { room_dBFS: -45, speech_dBFS: [-33, -34] }, 'fair', { code: 'tooSoft' }],
    ['a voice too near', { speech_dBFS: [-1, -2, -3] }, 'fair', { code: 'tooNear' }],
    ['trouble', { trouble: 'gone' }, 'poor', { code: 'trouble', trouble: 'gone' }],
  ])('gives the reason for %s', (_, change, verdict, reason) => {
    const judged = judgeMic({ ...fine, ...change })
    expect(judged.verdict).toBe(verdict)
    expect(judged.reasons).toContainEqual(reason)
  })
})
