import { describe, expect, it } from 'vitest'
import { CHUNK_SAMPLES } from '../../../src/adapters/speech/vosk/audioSource.ts'
import { createRecognizerPool } from '../../../src/adapters/speech/vosk/recognizerPool.ts'
import type { Hearing } from '../../../src/ports/speech.ts'
import { fakeEngine } from '../../support/fakeEngine.ts'

/** A pool on a fake engine; `hear(from, to, dB)` gives it the chunks of these numbers. */
function setUp() {
  const engine = fakeEngine()
  const hearings: Hearing[] = []
  let now_ms = 0
  let failures = 0
  const pool = createRecognizerPool(
    () => now_ms,
    (hearing) => hearings.push(hearing),
    () => (failures += 1),
  )
  return {
    engine,
    hearings,
    pool,
    failures: () => failures,
    pass: (by_ms: number) => (now_ms += by_ms),
    hear: (from: number, to: number, level_dBFS: (n: number) => number = () => -20) => {
      for (let n = from; n <= to; n++) {
        const samples = new Float32Array(CHUNK_SAMPLES).fill(n / 1000)
        pool.accept({ samples, level_dBFS: level_dBFS(n), mono_ms: n * 100, level_dB: 30 })
      }
    },
    partial: (text: string, which = -1) =>
      engine.recognizers.at(which)?.answer({ kind: 'partial', text }),
    final: (text: string, which = -1) =>
      engine.recognizers.at(which)?.answer({ kind: 'final', text }),
  }
}

describe('hearing through one recognizer', () => {
  it('tells a partial text with each chunk it stands for, with the time of the audio behind it', () => {
    const { pool, engine, hear, partial, hearings } = setUp()
    pool.setPhrases(['needle in'])
    pool.use(engine)
    hear(1, 4)
    partial('')
    partial('needle')
    partial('needle')
    partial('needle in')
    expect(hearings.map(({ text, mono_ms }) => [text, mono_ms])).toEqual([
      ['needle', 200],
      ['needle', 300],
      ['needle in', 400],
    ])
    expect(hearings[0]?.level_dB).toBe(30)
  })

  it('tells finals also when they are empty, and begins a new utterance after each', () => {
    const { pool, engine, hear, partial, final, hearings } = setUp()
    pool.use(engine)
    hear(1, 3)
    partial('[unk]')
    final('')
    partial('[unk]')
    expect(hearings.map(({ final: last, utterance }) => [last, utterance])).toEqual([
      [false, 1],
      [true, 1],
      [false, 2],
    ])
  })

  it('knows since when an answer is owed', () => {
    const { pool, engine, hear, partial, pass } = setUp()
    pool.use(engine)
    pass(5000)
    expect(pool.owed_ms()).toEqual({ any: 0, oldest: 0 })
    hear(1, 2)
    pass(700)
    expect(pool.owed_ms()).toEqual({ any: 700, oldest: 700 })
    partial('')
    pass(100)
    expect(pool.owed_ms()).toEqual({ any: 100, oldest: 800 })
    expect(pool.waiting()).toBe(1)
  })

  it('says when the recognizer answers with an error', () => {
    const { pool, engine, hear, failures } = setUp()
    pool.use(engine)
    hear(1, 1)
    engine.recognizers[0]?.answer({ kind: 'error', text: 'Not ready' })
    expect(failures()).toBe(1)
  })
})

describe('changing the phrases', () => {
  it('lets the new recognizer hear again the second of speech that had led to nothing', () => {
    const { pool, engine, hear, partial } = setUp()
    pool.setPhrases(['band on'])
    pool.use(engine)
    hear(1, 20)
    for (let n = 1; n <= 20; n++) partial('[unk]')
    pool.setPhrases(['needle in'])
    const [old, next] = engine.recognizers
    expect(next?.phrases).toEqual(['needle in'])
    expect(next?.chunks).toEqual([11, 12, 13, 14, 15, 16, 17, 18, 19, 20])
    expect(old?.removed()).toBe(true)
    hear(21, 21)
    expect(next?.chunks.at(-1)).toBe(21)
  })

  it('does not go back beyond a final result', () => {
    const { pool, engine, hear, partial, final } = setUp()
    pool.setPhrases(['band on'])
    pool.use(engine)
    hear(1, 8)
    for (let n = 1; n <= 5; n++) partial('')
    final('band on')
    partial('')
    partial('')
    pool.setPhrases(['needle in'])
    expect(engine.recognizers[1]?.chunks).toEqual([7, 8])
  })

  it('does not hear a phrase twice: only from the quietest moment near its end on', () => {
    const { pool, engine, hear, partial } = setUp()
    pool.setPhrases(['band on'])
    pool.use(engine)
    hear(1, 10, (n) => (n === 9 ? -60 : -20))
    for (let n = 1; n <= 10; n++) partial(n < 6 ? '' : 'band on')
    pool.setPhrases(['needle in'])
    expect(engine.recognizers[1]?.chunks).toEqual([10])
  })

  it('lets the old recognizer hear on after a phrase, and tells its final result alone', () => {
    const { pool, engine, hear, partial, final, hearings } = setUp()
    pool.setPhrases(['band on'])
    pool.use(engine)
    hear(1, 2)
    partial('band on')
    partial('band on')
    pool.setPhrases(['needle in'])
    hear(3, 4)
    partial('band on no', 0)
    expect(hearings).toHaveLength(2)
    partial('needle', 1)
    final('band on no wait', 0)
    expect(hearings.map(({ text, utterance }) => [text, utterance])).toEqual([
      ['band on', 1],
      ['band on', 1],
      ['needle', 2],
      ['band on no wait', 1],
    ])
    expect(engine.recognizers[0]?.removed()).toBe(true)
    hear(5, 5)
    expect(engine.recognizers[0]?.chunks).toEqual([1, 2, 3, 4])
  })

  it('asks an old recognizer that comes to no end for its final result', () => {
    const { pool, engine, hear, partial } = setUp()
    pool.setPhrases(['band on'])
    pool.use(engine)
    hear(1, 1)
    partial('band on')
    pool.setPhrases(['needle in'])
    hear(2, 9)
    expect(engine.recognizers[0]?.askedFinal()).toBe(false)
    hear(10, 10)
    expect(engine.recognizers[0]?.askedFinal()).toBe(true)
  })

  it('takes the same phrases for no change', () => {
    const { pool, engine } = setUp()
    pool.use(engine)
    pool.setPhrases(['band on', 'needle in'])
    pool.setPhrases(['band on', 'needle in'])
    expect(engine.recognizers).toHaveLength(2)
  })
})

describe('a new engine after the old one died', () => {
  it('hears what was said in between, and what the old one had left open', () => {
    const { pool, engine, hear, partial, final } = setUp()
    pool.setPhrases(['band on'])
    pool.use(engine)
    hear(1, 4)
    partial('')
    final('')
    partial('[unk]')
    pool.use(undefined)
    hear(5, 7)
    const second = fakeEngine()
    pool.use(second)
    expect(second.recognizers[0]?.phrases).toEqual(['band on'])
    expect(second.recognizers[0]?.chunks).toEqual([3, 4, 5, 6, 7])
  })

  it('does not hear again the phrase that was already told', () => {
    const { pool, engine, hear, partial } = setUp()
    pool.setPhrases(['band on'])
    pool.use(engine)
    hear(1, 4)
    partial('band')
    partial('band on')
    pool.use(undefined)
    const second = fakeEngine()
    pool.use(second)
    expect(second.recognizers[0]?.chunks).toEqual([3, 4])
  })

  it('hears nothing from before a stop', () => {
    const { pool, engine, hear } = setUp()
    pool.use(engine)
    hear(1, 4)
    pool.use(undefined)
    pool.forget()
    const second = fakeEngine()
    pool.use(second)
    expect(second.recognizers[0]?.chunks).toEqual([])
  })
})
