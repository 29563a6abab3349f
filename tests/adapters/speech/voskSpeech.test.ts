import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { CHUNK_SAMPLES } from '../../../src/adapters/speech/vosk/audioSource.ts'
import { ModelTrouble } from '../../../src/adapters/speech/vosk/engine.ts'
import { createFeedSource } from '../../../src/adapters/speech/vosk/feedSource.ts'
import { createVoskSpeech } from '../../../src/adapters/speech/vosk/voskSpeech.ts'
import type { SpeechState } from '../../../src/ports/speech.ts'
import { createSystemClock } from '../../../src/adapters/time/systemClock.ts'
import { fakeEngine, type FakeEngine } from '../../support/fakeEngine.ts'

/** How loud a chunk of full-scale square wave times this is: 0.1 is -20 dB below full scale. */
const SPEECH = 0.1
const QUIET = 0.001

function setUp(open?: () => Promise<FakeEngine>) {
  const engines: FakeEngine[] = []
  const states: SpeechState[] = []
  const source = createFeedSource()
  const speech = createVoskSpeech({
    modelUrl: 'http://localhost/m.tar.gz',
    workerUrl: '',
    wasmUrl: '',
    source,
    clock: createSystemClock('test'),
    openEngine: async () => {
      const engine = open ? await open() : fakeEngine()
      engines.push(engine)
      return engine
    },
  })
  speech.onState((state) => states.push(state))
  const recognizer = () => engines.at(-1)?.recognizers.at(-1)
  return {
    speech,
    source,
    states,
    engines,
    recognizer,
    kinds: () => states.map((state) => (state.kind === 'trouble' ? state.code : state.kind)),
    /** Sound for so long at the pace of speech, answered by the engine or not. */
    sound: async (length_ms: number, loudness: number, answered = true) => {
      for (let done = 0; done < length_ms; done += 100) {
        await vi.advanceTimersByTimeAsync(100)
        source.push(new Float32Array(CHUNK_SAMPLES).fill(loudness), performance.now())
        if (answered) recognizer()?.answer({ kind: 'partial', text: '' })
      }
    },
  }
}

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

describe('starting', () => {
  it('is loading, then listening', async () => {
    const { speech, kinds } = setUp()
    await speech.start()
    expect(kinds()).toEqual(['loading', 'listening'])
  })

  it.each(['loadFailed', 'badArchive', 'wrongChecksum'] as const)(
    'tells %s and does not hang',
    async (code) => {
      const { speech, states } = setUp(() => Promise.reject(new ModelTrouble(code, 'So it is.')))
      await speech.start()
      expect(states.at(-1)).toEqual({ kind: 'trouble', code, detail: 'So it is.' })
    },
  )

  it('tells an unforeseen error as a failure to load', async () => {
    const { speech, states } = setUp(() => Promise.reject(new Error('Odd.')))
    await speech.start()
    expect(states.at(-1)).toEqual({ kind: 'trouble', code: 'loadFailed', detail: 'Odd.' })
  })

  it('closes an engine that is ready only after the stop', async () => {
    let ready: (engine: FakeEngine) => void = () => undefined
    const { speech, kinds } = setUp(() => new Promise((resolve) => (ready = resolve)))
    const started = speech.start()
    await vi.advanceTimersByTimeAsync(10)
    await speech.stop()
    await started
    const late = fakeEngine()
    ready(late)
    await vi.advanceTimersByTimeAsync(10)
    expect(late.closed()).toBe(true)
    expect(kinds()).toEqual(['loading', 'off'])
  })

  it('opens the phrases that were set before', async () => {
    const { speech, recognizer } = setUp()
    speech.setPhrases(['band on'])
    await speech.start()
    expect(recognizer()?.phrases).toEqual(['band on'])
  })
})

describe('an engine that dies', () => {
  it('is told within two seconds of its last answer, is started again, and hears what was said meanwhile', async () => {
    const { speech, sound, kinds, engines } = setUp()
    speech.setPhrases(['band on'])
    await speech.start()
    await sound(1000, QUIET)
    await sound(2000, QUIET, false)
    expect(kinds().slice(2)).toContain('workerDied')
    await vi.advanceTimersByTimeAsync(1100)
    expect(kinds().slice(-2)).toEqual(['workerDied', 'listening'])
    expect(engines[0]?.closed()).toBe(true)
    const [next] = engines[1]?.recognizers ?? []
    expect(next?.phrases).toEqual(['band on'])
    expect(next?.chunks.length).toBeGreaterThanOrEqual(20)
  })

  it('is started again at once when it says itself that it died after a long life', async () => {
    const { speech, sound, kinds, engines } = setUp()
    await speech.start()
    await sound(6000, QUIET)
    engines[0]?.die()
    await vi.advanceTimersByTimeAsync(10)
    expect(kinds().slice(-2)).toEqual(['workerDied', 'listening'])
  })

  it('is not taken for dead while no sound flows', async () => {
    const { speech, sound, kinds } = setUp()
    await speech.start()
    await sound(500, QUIET)
    await vi.advanceTimersByTimeAsync(60_000)
    expect(kinds()).toEqual(['loading', 'listening'])
  })

  it('is given more time after each start, so that a slow machine is not started over and over', async () => {
    const { speech, sound, engines } = setUp()
    await speech.start()
    await sound(30_000, QUIET, false)
    expect(engines.length).toBeLessThan(7)
  })

  it('is left to the person when it cannot be started again', async () => {
    let starts = 0
    const { speech, sound, states } = setUp(() =>
      ++starts === 1
        ? Promise.resolve(fakeEngine())
        : Promise.reject(new ModelTrouble('loadFailed', 'Gone.')),
    )
    await speech.start()
    await sound(2200, QUIET, false)
    await vi.advanceTimersByTimeAsync(20_000)
    expect(states.at(-1)).toEqual({ kind: 'trouble', code: 'loadFailed', detail: 'Gone.' })
    expect(starts).toBe(3)
  })
})

describe('trouble with the sound', () => {
  it.each(['noMicrophone', 'microphoneLost', 'microphoneMuted', 'audioSuspended'] as const)(
    'tells %s, and listens again after it',
    async (trouble) => {
      const { speech, source, kinds } = setUp()
      await speech.start()
      source.fail(trouble)
      source.fail(undefined)
      expect(kinds()).toEqual(['loading', 'listening', trouble, 'listening'])
    },
  )

  it('tells a room that is too loud within two seconds, once, and when it is quiet again', async () => {
    const { speech, sound, kinds } = setUp()
    await speech.start()
    await sound(2000, QUIET)
    await sound(1900, SPEECH)
    expect(kinds().slice(2)).toEqual(['tooLoud'])
    await sound(3000, SPEECH)
    await sound(500, QUIET)
    expect(kinds().slice(2)).toEqual(['tooLoud', 'listening'])
  })

  it('does not take talk with its pauses for a loud room', async () => {
    const { speech, sound, kinds } = setUp()
    await speech.start()
    for (let sentence = 0; sentence < 10; sentence++) {
      await sound(1200, SPEECH)
      await sound(200, QUIET)
    }
    expect(kinds()).toEqual(['loading', 'listening'])
  })

  it('gives a level between 0 and 1 for each chunk of audio', async () => {
    const { speech, sound } = setUp()
    const levels: number[] = []
    speech.onLevel((level) => levels.push(level))
    await speech.start()
    await sound(200, SPEECH)
    await sound(100, 0)
    await sound(100, 1)
    expect(levels.map((level) => Number(level.toFixed(2)))).toEqual([0.67, 0.67, 0, 1])
  })
})
