import { describe, expect, it } from 'vitest'
import { micReasonText } from '../../../src/app/voice/micCheckView.ts'
import type { MicTrouble } from '../../../src/app/voice/micCheckState.ts'
import type { MicReason } from '../../../src/core/voice/judgeMic.ts'
import texts from '../../../src/data/en/voice.json'

describe('a reason of the microphone check', () => {
  it.each<[MicReason<MicTrouble>, RegExp]>([
    [{ code: 'missed', n: 1 }, /One phrase was not heard/],
    [{ code: 'wrong', n: 1 }, /One phrase was heard as something else/],
    [{ code: 'wrong', n: 2 }, /2 phrases were heard as something else/],
    [{ code: 'missed', n: 2 }, /2 phrases were not heard/],
    [{ code: 'loudRoom' }, /room is loud/],
    [{ code: 'tooSoft' }, /hardly louder than the room/],
    [{ code: 'tooNear' }, /too loud for the microphone/],
    [{ code: 'trouble', trouble: 'microphoneLost' }, /is gone/],
    [{ code: 'trouble', trouble: 'notAllowed' }, /not allowed/],
    [{ code: 'trouble', trouble: 'off' }, /switched off/],
  ])('is a sentence: %o', (reason, sentence) => {
    expect(micReasonText(reason, texts)).toMatch(sentence)
  })
})
