import { describe, expect, it } from 'vitest'
import { levelOf, type AudioChunk } from '../../../src/adapters/speech/vosk/audioSource.ts'
import { createAudioTime } from '../../../src/adapters/speech/vosk/capturedChunk.ts'
import { createFeedSource } from '../../../src/adapters/speech/vosk/feedSource.ts'
import { createRoomLevel } from '../../../src/adapters/speech/vosk/roomLevel.ts'

describe('level of a chunk of audio', () => {
  it('is 0 dB for a full-scale square wave, 3 dB less for a sine, and endless for silence', () => {
    expect(levelOf(new Float32Array(1600).fill(1))).toBeCloseTo(0)
    const sine = Float32Array.from({ length: 1600 }, (_, i) => Math.sin((2 * Math.PI * i) / 16))
    expect(levelOf(sine)).toBeCloseTo(-3.01, 2)
    expect(levelOf(new Float32Array(1600))).toBe(-Infinity)
  })
})

describe('time of a chunk of audio', () => {
  it('does not move when the page was busy and got its messages late', () => {
    const timeOf = createAudioTime()
    expect(timeOf(0.1, 1100)).toBe(1100)
    expect(timeOf(0.2, 1450)).toBeCloseTo(1200, 0)
    expect(timeOf(0.3, 1450)).toBeCloseTo(1300, 0)
    expect(timeOf(0.4, 1400)).toBeCloseTo(1400, 0)
  })

  it('follows clocks that drift apart', () => {
    const timeOf = createAudioTime()
    let last = 0
    for (let i = 1; i <= 36_000; i++) last = timeOf(i / 10, i * 100 * 1.0001)
    expect(last).toBeCloseTo(3_600_360, -1)
  })
})

describe('a source that is fed', () => {
  it('cuts what it is given into chunks of 100 ms with the time of their ends', async () => {
    const source = createFeedSource()
    const chunks: AudioChunk[] = []
    await source.start({ onChunk: (chunk) => chunks.push(chunk), onTrouble: () => undefined })
    source.push(new Float32Array(2400), 150)
    source.push(new Float32Array(2400), 300)
    expect(chunks.map(({ samples }) => samples.length)).toEqual([1600, 1600, 1600])
    expect(chunks.map(({ mono_ms }) => mono_ms)).toEqual([100, 200, 300])
  })
})

describe('speech above the room', () => {
  it('is unknown at first', () => {
    const room = createRoomLevel(-28)
    for (let i = 0; i < 9; i++) room.add(-60)
    expect(room.above_dB()).toBeUndefined()
  })

  it('is the loudest of the last second above what is left in the pauses', () => {
    const room = createRoomLevel(-28)
    for (let i = 0; i < 20; i++) room.add(-60)
    for (let i = 0; i < 5; i++) room.add(-25 - i)
    expect(room.above_dB()).toBe(35)
    for (let i = 0; i < 10; i++) room.add(-58)
    expect(room.above_dB()).toBe(2)
  })

  it('bears digital silence', () => {
    const room = createRoomLevel(-28)
    for (let i = 0; i < 12; i++) room.add(-Infinity)
    expect(room.above_dB()).toBe(0)
  })
})
