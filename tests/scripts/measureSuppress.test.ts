import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { measureArgs, USAGE } from '../measure/measureArgs.ts'
import { suppressedTracks } from '../measure/suppressedTracks.ts'
import { loadSuppressor, type Suppress } from '../measure/suppressor.ts'
import { readWav } from '../support/wav.ts'

/** Hands on what it got, `late` samples later. */
const lateBy = (late: number): Suppress => {
  let rest = new Float32Array(0)
  return (samples) => {
    const all = Float32Array.from([...rest, ...samples])
    rest = all.slice(all.length - late)
    return all.slice(0, all.length - late)
  }
}
const energy = (samples: Float32Array): number =>
  samples.reduce((sum, sample) => sum + sample * sample, 0)
const gain_dB = (out: Float32Array, of: Float32Array): number =>
  10 * Math.log10(energy(out) / energy(of))
const through = async (track: Float32Array): Promise<Float32Array> => {
  const { tracks } = suppressedTracks([track], await loadSuppressor(), () => 0)
  return tracks[0] ?? new Float32Array(0)
}
/** White noise, the same every time (minimal standard generator of Park and Miller 1988). */
const hiss = (length: number): Float32Array => {
  let state = 1
  return new Float32Array(length).map(
    () => 0.05 * ((state = (state * 16_807) % 2_147_483_647) / 1_073_741_823 - 1),
  )
}

describe('--suppress', () => {
  it('is off until it is asked for, and the usage tells of it', () => {
    expect(measureArgs(['d']).suppress).toBe(false)
    expect(measureArgs(['d', '--suppress', '--fast'])).toMatchObject({ suppress: true, fast: true })
    expect(USAGE).toMatch(/\[--suppress\][^]*\n {2}--suppress /)
  })
})

describe('tracks through a suppressor', () => {
  it('keep their lengths and come as late as it hands them on', () => {
    const tracks = [
      Float32Array.from({ length: 2000 }, (_, i) => i),
      new Float32Array(500).fill(-1),
    ]
    const { tracks: out } = suppressedTracks(tracks, lateBy(200), () => 0)
    expect(out.map(({ length }) => length)).toEqual([2000, 500])
    expect([0, 199, 200, 201, 1999].map((at) => out[0]?.[at])).toEqual([0, 0, 0, 1, 1799])
    // One stream: what one track has still inside comes at the start of the next.
    expect([0, 199, 200, 499].map((at) => out[1]?.[at])).toEqual([1800, 1999, -1, -1])
  })

  it('tell how much of real time the work took', () => {
    let now_ms = 0
    const clock = (): number => (now_ms += 50)
    const { realTimeFactor } = suppressedTracks([new Float32Array(16_000)], lateBy(0), clock)
    expect(realTimeFactor).toBeCloseTo(0.05)
  })
})

describe('RNNoise', () => {
  it('takes hiss away and leaves speech as loud as it was', async () => {
    const { samples } = readWav(
      readFileSync(new URL('../fixtures/speech/talk.wav', import.meta.url)),
    )
    const speech = samples.slice(0, 5 * 16_000)
    expect(Math.abs(gain_dB(await through(speech), speech))).toBeLessThan(1)
    const noise = hiss(3 * 16_000)
    const after = (await through(noise)).slice(16_000)
    expect(gain_dB(after, noise.slice(16_000))).toBeLessThan(-12)
  })

  it('makes speech 32 ms late: 20 in itself, 12 in frames and changes of the rate', async () => {
    const { samples } = readWav(
      readFileSync(new URL('../fixtures/speech/talk.wav', import.meta.url)),
    )
    const speech = samples.slice(0, 3 * 16_000)
    const out = await through(speech)
    const alike = (late: number): number =>
      out.reduce((sum, sample, i) => sum + sample * (speech[i - late] ?? 0), 0)
    const lates = Array.from({ length: 100 }, (_, i) => 10 * i)
    const best = lates.reduce((a, b) => (alike(b) > alike(a) ? b : a))
    expect(best / 16).toBeCloseTo(32, 0)
  })

  it('says in a sentence that it cannot be loaded, and why', async () => {
    await expect(
      loadSuppressor(() => Promise.reject(new Error('there is no WebAssembly'))),
    ).rejects.toThrow('The noise suppressor cannot be loaded: there is no WebAssembly')
  })
})
