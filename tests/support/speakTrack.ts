import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { readWav, writeWav } from './wav.ts'

const RATE_Hz = 16_000
/** A quiet room, so that nothing takes the pauses for a dead microphone. */
const ROOM = 0.001

export interface Spoken {
  readonly at_s: number
  readonly file: string
  /** How much louder or softer than recorded. */
  readonly gain_dB?: number
}

/** Lays 16 kHz recordings on a timeline over faint noise and writes them to a new WAV file; returns its path. */
export function speakTrack(spoken: readonly Spoken[], length_s: number): string {
  const samples = new Float32Array(Math.ceil(length_s * RATE_Hz))
  let seed = 1
  samples.forEach((_, i) => {
    seed = (seed * 16_807) % 2_147_483_647
    samples[i] = ROOM * ((2 * seed) / 2_147_483_647 - 1)
  })
  for (const { at_s, file, gain_dB = 0 } of spoken) {
    const sound = readWav(readFileSync(file))
    if (sound.rate_Hz !== RATE_Hz) throw new Error(`${file} is not at ${RATE_Hz} Hz.`)
    const start = Math.round(at_s * RATE_Hz)
    if (start + sound.samples.length > samples.length) {
      throw new Error(`${file} does not end within ${length_s} s.`)
    }
    const gain = 10 ** (gain_dB / 20)
    sound.samples.forEach(
      (sample, i) => (samples[start + i] = (samples[start + i] ?? 0) + gain * sample),
    )
  }
  const path = join(mkdtempSync(join(tmpdir(), 'stillhand-mic-')), 'track.wav')
  writeFileSync(path, writeWav({ rate_Hz: RATE_Hz, samples }))
  return path
}
