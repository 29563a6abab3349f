import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { speakTrack } from '../support/speakTrack.ts'
import { readWav, writeWav } from '../support/wav.ts'

const folder = mkdtempSync(join(tmpdir(), 'stillhand-track-'))
const loud = join(folder, 'loud.wav')
writeFileSync(loud, writeWav({ rate_Hz: 16_000, samples: new Float32Array(1600).fill(0.5) }))

test('a recording comes back as written', () => {
  const samples = Float32Array.from([0, 0.5, -0.5, 2, -2])
  const back = readWav(writeWav({ rate_Hz: 8000, samples }))
  expect(back.rate_Hz).toBe(8000)
  expect([...back.samples].map((value) => Math.round(value * 100) / 100)).toEqual([
    0, 0.5, -0.5, 1, -1,
  ])
})

test('recordings stand at their times and nowhere else', () => {
  const track = readWav(readFileSync(speakTrack([{ at_s: 0.5, file: loud }], 1)))
  const loudAt = [...track.samples].flatMap((value, i) => (value > 0.4 ? [i] : []))
  expect(track.samples.length).toBe(16_000)
  expect([loudAt[0], loudAt.at(-1), loudAt.length]).toEqual([8000, 9599, 1600])
})

test('a softer recording is laid over a louder one', () => {
  const over = { at_s: 0.05, file: loud, gain_dB: -20 }
  const track = readWav(readFileSync(speakTrack([{ at_s: 0, file: loud }, over], 1)))
  const at = (time_s: number): number => Math.round(20 * (track.samples[16_000 * time_s] ?? 0)) / 20
  expect([at(0.02), at(0.07), at(0.12), at(0.2)]).toEqual([0.5, 0.55, 0.05, 0])
})

test('a recording that does not fit is refused', () => {
  expect(() => speakTrack([{ at_s: 0.95, file: loud }], 1)).toThrow('does not end within 1 s')
})
