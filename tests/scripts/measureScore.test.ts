import { describe, expect, it } from 'vitest'
import { AFTER_s, BEFORE_s, endOfSpeech_s, noisyTrack } from '../measure/noisyTrack.ts'
import { quantile, score, type Act, type Heard } from '../measure/score.ts'

const act = (key: string, more: Partial<Act> = {}): Act => ({
  ...{ key, phrase: key, latency_ms: 100, takenBack: false },
  ...more,
})
const heard = (key: string, acts: readonly Act[], length_s = 1): Heard => ({
  ...{ file: 'f.wav', text: key, step: '', key, acts, length_s, finals: [] },
})

describe('score', () => {
  it('counts right, wrong, missed and false, and takes no credit for what was taken back', () => {
    const result = score([
      heard('a', [act('a', { latency_ms: 120 })]),
      heard('a', [act('b')]),
      heard('a', []),
      heard('a', [act('b', { takenBack: true })]),
      heard('a', [act('a'), act('b')]),
      heard('', [act('a'), act('b')], 1800),
      heard('', [], 1800),
    ])
    expect(result).toMatchObject({
      ...{ spoken: 5, right: 1, wrong: 2, missed: 2, takenBack: 1, false: 2 },
      ...{ unrelated_h: 1, falsePerHour: 2, latency_ms: { median: 120, p95: 120 } },
    })
  })

  it('has no rate of false activations without unrelated talk, and no latency without a right one', () => {
    expect(score([heard('a', [])])).toMatchObject({
      falsePerHour: null,
      latency_ms: { median: null, p95: null },
    })
  })
})

it('quantile is the nearest rank', () => {
  const twenty = Array.from({ length: 20 }, (_, i) => i + 1)
  expect(quantile(twenty, 0.95)).toBe(19)
  expect(quantile(twenty, 0.5)).toBe(10)
  expect(quantile([], 0.5)).toBeNull()
})

const RATE_Hz = 16_000
const tone = (length_s: number, gain: number): Float32Array =>
  Float32Array.from(
    { length: length_s * RATE_Hz },
    (_, i) => gain * Math.sin((2 * Math.PI * 300 * i) / RATE_Hz),
  )
const joined = (...parts: readonly Float32Array[]): Float32Array =>
  Float32Array.from(parts.flatMap((part) => [...part]))
const rms = (samples: Float32Array): number =>
  Math.sqrt(samples.reduce((sum, value) => sum + value * value, 0) / samples.length)

describe('endOfSpeech_s', () => {
  it('finds the end before a quiet tail, to 20 ms', () => {
    const speech = joined(tone(0.5, 0.001), tone(1, 0.5), tone(0.5, 0.001))
    expect(endOfSpeech_s(speech)).toBeCloseTo(1.5, 1)
  })

  it('finds it in a noisy recording too, and takes a recording without a pause whole', () => {
    const noisy = joined(tone(0.5, 0.05), tone(1, 0.5), tone(0.5, 0.05))
    expect(endOfSpeech_s(noisy)).toBeCloseTo(1.5, 1)
    expect(endOfSpeech_s(tone(1, 0.5))).toBeCloseTo(1, 1)
  })
})

describe('noisyTrack', () => {
  it('lays noise under the recording at the ratio asked for, and goes on with it before and after', () => {
    const speech = tone(1, 0.1)
    const noise = Float32Array.from({ length: 4000 }, (_, i) => 0.7 * Math.sin(i * i))
    const track = noisyTrack(speech, { samples: noise, snr_dB: 10, from: 123 })
    const before = track.subarray(0, BEFORE_s * RATE_Hz)
    const after = track.subarray((BEFORE_s + 1) * RATE_Hz)
    expect(track).toHaveLength((BEFORE_s + 1 + AFTER_s) * RATE_Hz)
    expect(20 * Math.log10(rms(speech) / rms(before))).toBeCloseTo(10, 0)
    expect(20 * Math.log10(rms(speech) / rms(after))).toBeCloseTo(10, 0)
  })

  it('is never digitally silent, so that a pause is not a muted microphone', () => {
    const track = noisyTrack(new Float32Array(1600))
    expect(rms(track.subarray(0, 1600))).toBeGreaterThan(0.0001)
    expect(rms(track)).toBeLessThan(0.001)
  })
})
