import { describe, expect, it } from 'vitest'
import { aboveRoom_dB, levelChanges, levelsOf } from '../../../src/core/voice/usualLevels.ts'

const quiet = { room_dBFS: -55, speech_dBFS: -20 }

describe('levels of microphone checks', () => {
  it('are whole numbers within what a microphone gives', () => {
    expect(levelsOf(-54.6, [-20.2, -22, -18])).toEqual({ room_dBFS: -55, speech_dBFS: -20 })
    expect(levelsOf(-900, [3])).toEqual({ room_dBFS: -120, speech_dBFS: 0 })
    expect(Object.is(levelsOf(-50, [-0.2])?.speech_dBFS, 0)).toBe(true)
  })

  it('are none where nobody was heard', () => {
    expect(levelsOf(-50, [])).toBeUndefined()
    expect(levelsOf(-50, [-Infinity])).toBeUndefined()
    expect(levelsOf(NaN, [-20])).toBeUndefined()
  })

  it('have a middle that one odd check does not move', () => {
    const odd = { room_dBFS: -10, speech_dBFS: -3 }
    expect(aboveRoom_dB([quiet, odd, quiet])).toBe(35)
    expect(aboveRoom_dB([])).toBeUndefined()
    expect(levelChanges([quiet, odd, quiet], quiet)).toEqual([])
  })

  it('tell a softer voice and a louder room from three checks on, and from 6 dB on', () => {
    const now = { room_dBFS: -49, speech_dBFS: -26 }
    expect(levelChanges([quiet, quiet, quiet], now)).toEqual([
      { kind: 'softer', by_dB: 6 },
      { kind: 'louderRoom', by_dB: 6 },
    ])
    expect(levelChanges([quiet, quiet], now)).toEqual([])
    expect(levelChanges([quiet, quiet, quiet], { room_dBFS: -50, speech_dBFS: -25 })).toEqual([])
    expect(levelChanges([quiet, quiet, quiet], { room_dBFS: -70, speech_dBFS: -10 })).toEqual([])
    expect(levelChanges([quiet, quiet, quiet], undefined)).toEqual([])
  })
})
