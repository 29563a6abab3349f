import { describe, expect, it } from 'vitest'
import { CHUNK_SAMPLES } from '../../../src/adapters/speech/vosk/audioSource.ts'
import { ears } from '../../../src/adapters/speech/vosk/ears.ts'
import type { Hearing } from '../../../src/ports/speech.ts'
import { fakeEngine } from '../../support/fakeEngine.ts'

/** Ears on a fake engine; `hear(n, dB)` gives the n-th piece of sound. */
function setUp() {
  const engine = fakeEngine()
  const hearings: Hearing[] = []
  let now_ms = 0
  let failures = 0
  const made = ears(
    () => now_ms,
    (hearing) => hearings.push(hearing),
    () => (failures += 1),
  )
  return {
    engine,
    hearings,
    ears: made,
    failures: () => failures,
    pass: (by_ms: number) => (now_ms += by_ms),
    hear: (from: number, to: number, level_dBFS: (n: number) => number = () => -20) => {
      for (let n = from; n <= to; n++) {
        const samples = new Float32Array(CHUNK_SAMPLES).fill(n / 1000)
        made.hear({ samples, level_dBFS: level_dBFS(n), mono_ms: n * 100, level_dB: 30 })
      }
    },
    partial: (text: string, which = -1) =>
      engine.recognizers.at(which)?.answer({ kind: 'partial', text }),
    final: (text: string, which = -1) =>
      engine.recognizers.at(which)?.answer({ kind: 'final', text }),
  }
}

describe('hearing through one recognizer', () => {
  it('tells a partial text with each piece it stands for, with the time of the sound behind it', () => {
    const { ears, engine, hear, partial, hearings } = setUp()
    ears.setPhrases(['needle in'])
    ears.use(engine)
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
    const { ears, engine, hear, partial, final, hearings } = setUp()
    ears.use(engine)
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
    const { ears, engine, hear, partial, pass } = setUp()
    ears.use(engine)
    pass(5000)
    expect(ears.owed_ms()).toEqual({ any: 0, oldest: 0 })
    hear(1, 2)
    pass(700)
    expect(ears.owed_ms()).toEqual({ any: 700, oldest: 700 })
    partial('')
    pass(100)
    expect(ears.owed_ms()).toEqual({ any: 100, oldest: 800 })
    expect(ears.waiting()).toBe(1)
  })

  it('says when the recognizer answers with an error', () => {
    const { ears, engine, hear, failures } = setUp()
    ears.use(engine)
    hear(1, 1)
    engine.recognizers[0]?.answer({ kind: 'error', text: 'Not ready' })
    expect(failures()).toBe(1)
  })
})

describe('changing the phrases', () => {
  it('lets the new recognizer hear again the second of speech that had led to nothing', () => {
    const { ears, engine, hear, partial } = setUp()
    ears.setPhrases(['band on'])
    ears.use(engine)
    hear(1, 20)
    for (let n = 1; n <= 20; n++) partial('[unk]')
    ears.setPhrases(['needle in'])
    const [old, next] = engine.recognizers
    expect(next?.phrases).toEqual(['needle in'])
    expect(next?.heard).toEqual([11, 12, 13, 14, 15, 16, 17, 18, 19, 20])
    expect(old?.removed()).toBe(true)
    hear(21, 21)
    expect(next?.heard.at(-1)).toBe(21)
  })

  it('does not go back beyond a final result', () => {
    const { ears, engine, hear, partial, final } = setUp()
    ears.setPhrases(['band on'])
    ears.use(engine)
    hear(1, 8)
    for (let n = 1; n <= 5; n++) partial('')
    final('band on')
    partial('')
    partial('')
    ears.setPhrases(['needle in'])
    expect(engine.recognizers[1]?.heard).toEqual([7, 8])
  })

  it('does not hear a phrase twice: only from the quietest moment near its end on', () => {
    const { ears, engine, hear, partial } = setUp()
    ears.setPhrases(['band on'])
    ears.use(engine)
    hear(1, 10, (n) => (n === 9 ? -60 : -20))
    for (let n = 1; n <= 10; n++) partial(n < 6 ? '' : 'band on')
    ears.setPhrases(['needle in'])
    expect(engine.recognizers[1]?.heard).toEqual([10])
  })

  it('lets the old recognizer hear on after a phrase, and tells its final result alone', () => {
    const { ears, engine, hear, partial, final, hearings } = setUp()
    ears.setPhrases(['band on'])
    ears.use(engine)
    hear(1, 2)
    partial('band on')
    partial('band on')
    ears.setPhrases(['needle in'])
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
    expect(engine.recognizers[0]?.heard).toEqual([1, 2, 3, 4])
  })

  it('asks an old recognizer that comes to no end for its final result', () => {
    const { ears, engine, hear, partial } = setUp()
    ears.setPhrases(['band on'])
    ears.use(engine)
    hear(1, 1)
    partial('band on')
    ears.setPhrases(['needle in'])
    hear(2, 9)
    expect(engine.recognizers[0]?.askedFinal()).toBe(false)
    hear(10, 10)
    expect(engine.recognizers[0]?.askedFinal()).toBe(true)
  })

  it('takes the same phrases for no change', () => {
    const { ears, engine } = setUp()
    ears.use(engine)
    ears.setPhrases(['band on', 'needle in'])
    ears.setPhrases(['band on', 'needle in'])
    expect(engine.recognizers).toHaveLength(2)
  })
})

describe('a new engine after the old one died', () => {
  it('hears what was said in between, and what the old one had left open', () => {
    const { ears, engine, hear, partial, final } = setUp()
    ears.setPhrases(['band on'])
    ears.use(engine)
    hear(1, 4)
    partial('')
    final('')
    partial('[unk]')
    ears.use(undefined)
    hear(5, 7)
    const second = fakeEngine()
    ears.use(second)
    expect(second.recognizers[0]?.phrases).toEqual(['band on'])
    expect(second.recognizers[0]?.heard).toEqual([3, 4, 5, 6, 7])
  })

  it('does not hear again the phrase that was already told', () => {
    const { ears, engine, hear, partial } = setUp()
    ears.setPhrases(['band on'])
    ears.use(engine)
    hear(1, 4)
    partial('band')
    partial('band on')
    ears.use(undefined)
    const second = fakeEngine()
    ears.use(second)
    expect(second.recognizers[0]?.heard).toEqual([3, 4])
  })

  it('hears nothing from before a stop', () => {
    const { ears, engine, hear } = setUp()
    ears.use(engine)
    hear(1, 4)
    ears.use(undefined)
    ears.forget()
    const second = fakeEngine()
    ears.use(second)
    expect(second.recognizers[0]?.heard).toEqual([])
  })
})
