import { describe, expect, it } from 'vitest'
import {
  framesOf,
  speechStretch,
  type Stretch,
} from '../../../src/adapters/speech/vosk/speechStretch.ts'

type Pieces = readonly (readonly number[])[]

const SPOKEN = [-20, -20, -20, -20, -20]
const QUIET = [-55, -55, -55, -55, -55]
const LONG_QUIET = Array.from({ length: 30 }, () => QUIET)

function measured(pieces: Pieces): Stretch | undefined {
  const stretch = speechStretch()
  return pieces.map((frames) => stretch.add(Math.max(...frames) - 3, frames)).at(-1)
}

describe('the pause after speech', () => {
  const after = (...pieces: Pieces): number | undefined => measured(pieces)?.quiet_ms

  it('is none while somebody speaks', () => {
    expect(after(QUIET, SPOKEN)).toBe(0)
  })

  it('is counted from within the piece in which the speech ended', () => {
    expect(after(QUIET, SPOKEN, [-20, -20, -50, -50, -50])).toBe(60)
    expect(after(QUIET, SPOKEN, [-20, -20, -50, -50, -50], QUIET)).toBe(160)
  })

  it('begins anew with the next word', () => {
    expect(after(SPOKEN, QUIET, [-50, -20, -20, -20, -50])).toBe(20)
  })

  it('is found in noise of 12 dB below the speech', () => {
    expect(after(SPOKEN, [-35, -35, -35, -35, -35])).toBe(100)
  })
})

describe('the length of speech', () => {
  const spoken = (...pieces: Pieces): number | undefined => measured(pieces)?.spoken_ms

  it('runs from its first loud moment to its last', () => {
    expect(spoken(...LONG_QUIET, SPOKEN)).toBe(100)
    expect(
      spoken(...LONG_QUIET, [-55, -55, -20, -20, -20], SPOKEN, [-20, -55, -55, -55, -55]),
    ).toBe(180)
  })

  it('goes on over a closed consonant, and begins anew after a pause', () => {
    expect(spoken(SPOKEN, QUIET, SPOKEN)).toBe(300)
    expect(spoken(SPOKEN, QUIET, QUIET, SPOKEN)).toBe(100)
  })

  it('does not grow in silence, and is none before the first word', () => {
    expect(spoken(SPOKEN, QUIET, QUIET, QUIET)).toBe(100)
    const silence = Array.from({ length: 5 }, () => -Infinity)
    expect(measured([silence, silence])).toEqual({ spoken_ms: 0, quiet_ms: 200 })
  })
})

describe('levels within a piece', () => {
  it('are taken each 20 ms', () => {
    const samples = new Float32Array(1600).fill(1, 320, 640)
    expect(framesOf(samples)).toEqual([-Infinity, 0, -Infinity, -Infinity, -Infinity])
  })
})
