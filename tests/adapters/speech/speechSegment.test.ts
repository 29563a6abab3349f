import { describe, expect, it } from 'vitest'
import {
  framesOf,
  createSegmentMeter,
  type SpeechSegment,
} from '../../../src/adapters/speech/vosk/speechSegment.ts'

type Chunks = readonly (readonly number[])[]

const SPOKEN = [-20, -20, -20, -20, -20]
const QUIET = [-55, -55, -55, -55, -55]
const LONG_QUIET = Array.from({ length: 30 }, () => QUIET)

function measured(chunks: Chunks): SpeechSegment | undefined {
  const meter = createSegmentMeter()
  return chunks.map((frames) => meter.add(Math.max(...frames) - 3, frames)).at(-1)
}

describe('the pause after speech', () => {
  const after = (...chunks: Chunks): number | undefined => measured(chunks)?.quiet_ms

  it('is none while somebody speaks', () => {
    expect(after(QUIET, SPOKEN)).toBe(0)
  })

  it('is counted from within the chunk in which the speech ended', () => {
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
  const spoken = (...chunks: Chunks): number | undefined => measured(chunks)?.spoken_ms

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

describe('levels within a chunk', () => {
  it('are taken each 20 ms', () => {
    const samples = new Float32Array(1600).fill(1, 320, 640)
    expect(framesOf(samples)).toEqual([-Infinity, 0, -Infinity, -Infinity, -Infinity])
  })
})
