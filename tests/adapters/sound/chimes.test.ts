import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { render, TUNES, wav } from '../../../scripts/makeChimes.ts'
import { CHIMES, type Chime } from '../../../src/ports/sound.ts'
import { readWav, type Sound } from '../../support/wav.ts'

const folder = join(import.meta.dirname, '..', '..', '..', 'public', 'chimes')
const bytesOf = (name: Chime): Buffer => readFileSync(join(folder, `${name}.wav`))
const soundOf = (name: Chime): Sound => readWav(bytesOf(name))

/** Strength of one frequency in a stretch of sound, by Goertzel's recurrence. */
function strength({ rate_Hz, samples }: Sound, hz: number): number {
  const turn = 2 * Math.cos((2 * Math.PI * hz) / rate_Hz)
  let [last, before] = [0, 0]
  for (const sample of samples) [last, before] = [sample + turn * last - before, last]
  return Math.sqrt(Math.max(0, last * last + before * before - turn * last * before))
}

const loudest = (samples: Float32Array): number =>
  samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0)

/** Stretches that are sounding, found from the level in steps of 5 ms; knows nothing of how they were made. */
function notesOf({ rate_Hz, samples }: Sound): Sound[] {
  const step = Math.round(0.005 * rate_Hz)
  const threshold = 0.06 * loudest(samples)
  const notes: Sound[] = []
  let from: number | undefined
  for (let at = 0; at < samples.length; at += step) {
    const sounding = loudest(samples.subarray(at, at + step)) > threshold
    if (sounding) from ??= at
    if (from !== undefined && (!sounding || at + step >= samples.length)) {
      notes.push({ rate_Hz, samples: samples.subarray(from, at) })
      from = undefined
    }
  }
  return notes
}

/** The strongest frequency between two, tried at every step. */
function strongest_Hz(note: Sound, from: number, to: number, step: number): number {
  let best = { hz: from, level: 0 }
  for (let hz = from; hz <= to; hz += step) {
    const level = strength(note, hz)
    if (level > best.level) best = { hz, level }
  }
  return best.hz
}

/** Pitch of a note, which is its strongest frequency in every chime: first roughly, then to 0.1 Hz. */
function pitch_Hz(note: Sound): number {
  const rough = strongest_Hz(note, 100, 4000, 2)
  return strongest_Hz(note, rough - 2, rough + 2, 0.1)
}

const heard = Object.fromEntries(
  CHIMES.map((name) => {
    const sound = soundOf(name)
    const notes = notesOf(sound)
    return [name, { sound, notes, pitches: notes.map(pitch_Hz) }]
  }),
) as Record<Chime, { sound: Sound; notes: Sound[]; pitches: number[] }>

describe.each(CHIMES)('the chime %s', (name) => {
  const { sound, notes, pitches } = heard[name]

  it('is the file that the tune renders to, byte for byte', () => {
    expect(wav(render(TUNES[name])).equals(bytesOf(name))).toBe(true)
  })

  it('is well below clipping', () => {
    expect(loudest(sound.samples)).toBeLessThan(0.9)
    expect(loudest(sound.samples)).toBeGreaterThan(0.05)
  })

  // 150-1000 Hz with four or more harmonics within 300-4000 Hz: IEC 60601-1-8 as retold in secondary sources.
  it('has its fundamental in 150-1000 Hz and four harmonics that carry in 300-4000 Hz', () => {
    notes.forEach((note, i) => {
      const base = pitches[i] ?? 0
      expect(base).toBeGreaterThanOrEqual(150)
      expect(base).toBeLessThanOrEqual(1000)
      const fundamental = strength(note, base)
      const carrying = [1, 2, 3, 4, 5, 6]
        .map((k) => k * base)
        .filter((hz) => hz >= 300 && hz <= 4000 && strength(note, hz) > 0.05 * fundamental)
      expect(carrying.length).toBeGreaterThanOrEqual(4)
    })
  })
})

it('has chimes that differ in the number of notes or in their pitch by a third or more', () => {
  const third = 2 ** (3 / 12)
  const apart = (a: readonly number[], b: readonly number[]): boolean =>
    a.length !== b.length ||
    a.some((hz, i) => Math.max(hz / (b[i] ?? hz), (b[i] ?? hz) / hz) >= third)
  for (const a of CHIMES) {
    for (const b of CHIMES) {
      if (a !== b) expect(apart(heard[a].pitches, heard[b].pitches), `${a}, ${b}`).toBe(true)
    }
  }
})

/**
 * The rhythm of a chime without its pitch: for each note whether it is long (over 0.2 s), for each rest whether the next
 * note comes at once, after a beat, or late. Limits are our own; common practice, no source.
 */
function rhythmOf(name: Chime): string {
  const { sound, notes } = heard[name]
  const starts = notes.map(({ samples }) => samples.byteOffset / samples.BYTES_PER_ELEMENT)
  return notes
    .map(({ samples }, i) => {
      const from = starts[i] ?? 0
      const apart_s = ((starts[i + 1] ?? from) - from) / sound.rate_Hz
      const length = samples.length / sound.rate_Hz > 0.2 ? 'long' : 'short'
      return `${length} ${apart_s === 0 ? '.' : apart_s > 0.4 ? 'late' : 'soon'}`
    })
    .join(' ')
}

it('has a rhythm of its own for each tone that stands for words, whatever the pitch', () => {
  const tones = ['next', 'asked', 'look', 'handle', 'told'] as const satisfies readonly Chime[]
  for (const tone of tones) {
    for (const other of CHIMES) {
      if (other !== tone) expect(rhythmOf(other), `${tone}, ${other}`).not.toBe(rhythmOf(tone))
    }
  }
})

it('sounds as the drawer is trained to hear it', () => {
  const count = (name: Chime): number => heard[name].notes.length
  const counted = Object.fromEntries(CHIMES.map((name) => [name, count(name)]))
  expect(counted).toEqual({
    nearlyUp: 2,
    timeUp: 3,
    tubeFull: 2,
    mixNow: 4,
    heard: 1,
    earsOpen: 2,
    notUnderstood: 2,
    severe: 5,
    next: 1,
    asked: 3,
    look: 4,
    handle: 3,
    told: 2,
  })
  const power = (name: Chime): number => {
    const { samples } = heard[name].sound
    return Math.sqrt(samples.reduce((sum, x) => sum + x * x, 0) / samples.length)
  }
  for (const name of CHIMES) {
    if (name !== 'heard') expect(power('heard')).toBeLessThan(power(name) / 2)
    if (name !== 'severe') expect(power('severe')).toBeGreaterThan(power(name))
    if (name !== 'notUnderstood') {
      expect(Math.max(...heard.notUnderstood.pitches)).toBeLessThan(
        Math.min(...heard[name].pitches),
      )
    }
  }
  expect(power('nearlyUp')).toBeLessThan(power('timeUp'))
})
