import { describe, expect, it } from 'vitest'
import { standOut } from '../../../src/core/voice/standOut.ts'

const frames = (level: number, ms: number): number[] => Array.from({ length: ms / 20 }, () => level)
/** Frames before, then 400 ms of speech. */
const spokenAfter = (...before: number[]) =>
  standOut([...before, ...frames(-20, 400)], before.length, before.length + 19, 20)

describe('speech against what was heard before it', () => {
  it('stands above a steady background by the difference', () => {
    expect(spokenAfter(...frames(-50, 2000))).toEqual({
      speech_dBFS: -20,
      above_dB: 30,
      onset_dB: 30,
      before_dB: -30,
    })
  })

  it('has talk before it only where that was heard in the last half second', () => {
    const talk = frames(-30, 1000)
    expect(spokenAfter(...frames(-70, 1000), ...talk)?.before_dB).toBe(-10)
    expect(spokenAfter(...talk, ...frames(-70, 600))).toMatchObject({
      before_dB: -50,
      above_dB: 10,
    })
  })

  it('does not stand out of talk that was as loud, pauses and all', () => {
    const talk = [...frames(-60, 1000), ...frames(-20, 500), ...frames(-60, 500)]
    expect(spokenAfter(...talk)).toMatchObject({ above_dB: 0, onset_dB: 40 })
  })

  it('does not set in where it was as loud the moment before', () => {
    expect(spokenAfter(...frames(-60, 2900), ...frames(-22, 100))).toMatchObject({
      above_dB: 40,
      onset_dB: 2,
    })
  })

  it('forgets what was heard more than three seconds before', () => {
    expect(spokenAfter(...frames(-10, 1000), ...frames(-50, 3000))?.above_dB).toBe(30)
  })

  it('says nothing of a background that was hardly heard, or of no speech', () => {
    expect(spokenAfter(...frames(-50, 480))).toBeUndefined()
    expect(standOut(frames(-50, 2000), 60, 59, 20)).toBeUndefined()
  })

  it('takes digital silence for a level', () => {
    expect(spokenAfter(...frames(-Infinity, 1000))).toMatchObject({ above_dB: 80, onset_dB: 80 })
  })
})
