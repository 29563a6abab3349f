/**
 * Renders the chimes into public/chimes: `npm run chimes:make`. Pure arithmetic, the same bytes every time.
 * Fundamentals lie between 150 and 1000 Hz with at least four harmonics, the pattern that alarm standards for medical
 * equipment are said to use (IEC 60601-1-8, second-hand); no conformity is claimed.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { CHIMES, type Chime } from '../src/ports/sound.ts'

const RATE_Hz = 22_050

export interface Note {
  readonly at_s: number
  readonly hz: number
  readonly length_s: number
  readonly gain: number
}

const note = (at_s: number, hz: number, length_s: number, gain = 0.5): Note => ({
  at_s,
  hz,
  length_s,
  gain,
})

/**
 * Each chime as a tune; they differ in the number of notes, direction and pitch, not in pitch alone. The last five
 * stand for words: each has a rhythm that no other chime has, for ears that do not keep pitch.
 */
export const TUNES: Readonly<Record<Chime, readonly Note[]>> = {
  nearlyUp: [note(0, 440, 0.16, 0.35), note(0.2, 523.25, 0.22, 0.35)],
  timeUp: [note(0, 659.25, 0.16), note(0.22, 659.25, 0.16), note(0.44, 880, 0.26)],
  tubeFull: [note(0, 783.99, 0.14, 0.4), note(0.16, 587.33, 0.3, 0.4)],
  mixNow: [
    note(0, 392, 0.1, 0.4),
    note(0.14, 493.88, 0.1, 0.4),
    note(0.28, 392, 0.1, 0.4),
    note(0.42, 493.88, 0.14, 0.4),
  ],
  heard: [note(0, 987.77, 0.05, 0.18)],
  earsOpen: [note(0, 349.23, 0.1, 0.3), note(0.12, 659.25, 0.14, 0.3)],
  notUnderstood: [note(0, 220, 0.16, 0.5), note(0.22, 174.61, 0.26, 0.5)],
  severe: [0, 0.17, 0.34, 0.62, 0.79].map((at_s, i) =>
    note(at_s, i < 3 ? 698.46 : 932.33, 0.12, 0.65),
  ),
  // One long.
  next: [note(0, 523.25, 0.34, 0.35)],
  // Long, short, short, rising as a question does.
  asked: [note(0, 440, 0.28, 0.4), note(0.38, 554.37, 0.1, 0.4), note(0.52, 659.25, 0.1, 0.4)],
  // Two pairs.
  look: [0, 0.13, 0.55, 0.68].map((at_s) => note(at_s, 587.33, 0.1, 0.5)),
  // Two short, a rest, one long.
  handle: [
    note(0, 349.23, 0.1, 0.45),
    note(0.14, 349.23, 0.1, 0.45),
    note(0.62, 466.16, 0.3, 0.45),
  ],
  // Two far apart.
  told: [note(0, 493.88, 0.16, 0.5), note(0.5, 392, 0.16, 0.5)],
}

const HARMONICS = [1, 0.5, 0.33, 0.25, 0.12] as const

/** Samples of one chime, -1..1. */
export function render(tune: readonly Note[]): Float32Array {
  const end_s = Math.max(...tune.map(({ at_s, length_s }) => at_s + length_s)) + 0.05
  const samples = new Float32Array(Math.ceil(end_s * RATE_Hz))
  for (const { at_s, hz, length_s, gain } of tune) {
    const start = Math.round(at_s * RATE_Hz)
    const count = Math.round(length_s * RATE_Hz)
    for (let i = 0; i < count; i++) {
      const t = i / RATE_Hz
      // A soft start and end, or every note would click.
      const edge = Math.min(1, t / 0.008, (length_s - t) / 0.02)
      const wave = HARMONICS.reduce(
        (sum, level, k) => sum + level * Math.sin(2 * Math.PI * hz * (k + 1) * t),
        0,
      )
      samples[start + i] =
        (samples[start + i] ?? 0) + (gain * edge * Math.exp(-2.5 * t) * wave) / 1.4
    }
  }
  return samples
}

/** 16-bit mono WAV. */
export function wav(samples: Float32Array): Buffer {
  const data = Buffer.alloc(samples.length * 2)
  samples.forEach((value, i) =>
    data.writeInt16LE(Math.round(Math.max(-1, Math.min(1, value)) * 32_767), i * 2),
  )
  const head = Buffer.alloc(44)
  head.write('RIFF', 0)
  head.writeUInt32LE(36 + data.length, 4)
  head.write('WAVEfmt ', 8)
  head.writeUInt32LE(16, 16)
  head.writeUInt16LE(1, 20)
  head.writeUInt16LE(1, 22)
  head.writeUInt32LE(RATE_Hz, 24)
  head.writeUInt32LE(RATE_Hz * 2, 28)
  head.writeUInt16LE(2, 32)
  head.writeUInt16LE(16, 34)
  head.write('data', 36)
  head.writeUInt32LE(data.length, 40)
  return Buffer.concat([head, data])
}

if (process.argv[1]?.endsWith('makeChimes.ts')) {
  const folder = join(import.meta.dirname, '..', 'public', 'chimes')
  mkdirSync(folder, { recursive: true })
  for (const name of CHIMES) writeFileSync(join(folder, `${name}.wav`), wav(render(TUNES[name])))
}
