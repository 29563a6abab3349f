import { beforeEach, describe, expect, it } from 'vitest'
import { createBrowserReader, type Synthesis } from '../../../src/adapters/sound/browserReader.ts'
import type { Reader } from '../../../src/ports/reader.ts'

type Voice = ReturnType<Synthesis['getVoices']>[number]
const utterance = (text: string) => ({ text }) as SpeechSynthesisUtterance
const end = (spoken: SpeechSynthesisUtterance | undefined): void => {
  spoken?.onend?.(undefined as never)
}

describe('the reader of the browser', () => {
  let voices: Voice[]
  let spoken: SpeechSynthesisUtterance[]
  let reader: Reader
  let told: boolean[]

  beforeEach(() => {
    voices = [
      { lang: 'en-US', localService: false },
      { lang: 'de-DE', localService: true },
      { lang: 'en-GB', localService: true },
    ]
    spoken = []
    told = []
    reader = createBrowserReader(
      { getVoices: () => voices, speak: (each) => void spoken.push(each), cancel: () => undefined },
      utterance,
      'en',
    )
    reader.onReading((reading) => void told.push(reading))
  })

  it('reads by a voice of this machine and of its language', () => {
    reader.read('Robin Testwell')
    expect(spoken.map(({ text, voice }) => [text, voice])).toEqual([
      ['Robin Testwell', { lang: 'en-GB', localService: true }],
    ])
  })

  it('never sends a name to a voice on a server', () => {
    voices = [{ lang: 'en-US', localService: false }]
    reader.read('Robin Testwell')
    expect(spoken).toEqual([])
    expect(reader.isThere()).toBe(false)
    expect(told).toEqual([])
  })

  it('is silent where the browser has no speech at all', () => {
    const none = createBrowserReader(undefined, utterance, 'en')
    none.read('Robin Testwell')
    none.stop()
    expect(none.isThere()).toBe(false)
  })

  it('tells when reading begins and when all of it has ended', () => {
    reader.read('one')
    reader.read('two')
    end(spoken[0])
    expect(told).toEqual([true])
    end(spoken[1])
    expect(told).toEqual([true, false])
  })

  it('does not take the late end of what was stopped for the end of what is read now', () => {
    reader.read('one')
    reader.stop()
    reader.read('two')
    end(spoken[0])
    expect(told).toEqual([true, false, true])
    end(spoken[1])
    expect(told).toEqual([true, false, true, false])
  })
})
