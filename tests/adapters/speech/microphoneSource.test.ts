// @vitest-environment jsdom
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { AudioSource, AudioTrouble } from '../../../src/adapters/speech/vosk/audioSource.ts'
import type { Capture } from '../../../src/adapters/speech/vosk/capture.ts'
import { createMicrophoneSource } from '../../../src/adapters/speech/vosk/microphoneSource.ts'
import {
  createSimulatedClock,
  type SimulatedClock,
} from '../../../src/adapters/time/simulatedClock.ts'

/** Captures that were opened, newest last; the real one needs a browser's audio. */
const captures: { readonly closed: () => boolean }[] = []
vi.mock('../../../src/adapters/speech/vosk/capture.ts', () => ({
  stopTracks: () => undefined,
  openCapture: (): Promise<Capture> => {
    let closed = false
    captures.push({ closed: () => closed })
    const context = Object.assign(new EventTarget(), { state: 'running' })
    return Promise.resolve({
      context: context as unknown as AudioContext,
      close: () => {
        closed = true
        return Promise.resolve()
      },
    })
  },
}))

type Answer = 'allow' | 'NotAllowedError' | 'NotFoundError' | 'never'

let clock: SimulatedClock
let source: AudioSource
let troubles: (AudioTrouble | undefined)[]
let answer: Answer
let asked: number
let track: EventTarget
let permission: EventTarget & { state: PermissionState }

const GRANTED: { state: PermissionState } = { state: 'granted' }

const settle = (): Promise<void> => new Promise((done) => setImmediate(done))
const pass = async (by_ms: number): Promise<void> => {
  for (let done = 0; done < by_ms; done += 100) {
    clock.advance(100)
    await settle()
  }
}
const touch = async (): Promise<void> => {
  dispatchEvent(new Event('pointerdown'))
  await settle()
}
const permit = (state: PermissionState, tells: boolean): void => {
  permission.state = state
  if (tells) permission.dispatchEvent(new Event('change'))
}
/** Not awaited to its end: while a question is open it has none. */
const start = async (): Promise<void> => {
  void source.start({ onChunk: () => undefined, onTrouble: (trouble) => troubles.push(trouble) })
  await settle()
}

beforeEach(() => {
  clock = createSimulatedClock({ wall_ms: 0, mono_ms: 0, boot: 'b', offset_min: 0 })
  captures.length = 0
  troubles = []
  answer = 'allow'
  asked = 0
  permission = Object.assign(new EventTarget(), GRANTED)
  vi.stubGlobal('isSecureContext', true)
  Object.assign(navigator, {
    permissions: { query: () => Promise.resolve(permission) },
    mediaDevices: Object.assign(new EventTarget(), {
      getUserMedia: () => {
        asked += 1
        if (answer === 'never') return new Promise(() => undefined)
        if (answer !== 'allow') return Promise.reject(new DOMException('No.', answer))
        track = new EventTarget()
        return Promise.resolve({ getAudioTracks: () => [track] })
      },
    }),
  })
  source = createMicrophoneSource('worklet.js', clock)
})
afterEach(async () => {
  await source.stop()
  vi.unstubAllGlobals()
})

describe('the browser’s question', () => {
  it('may stand open for a while before the microphone counts as not allowed', async () => {
    answer = 'never'
    permission.state = 'prompt'
    await start()
    await pass(9000)
    expect(troubles).toEqual([])
    await pass(2000)
    expect(troubles).toEqual(['notAllowed'])
    expect(asked).toBe(1)
  })

  it('is not put by a page that may not have a microphone at all', async () => {
    vi.stubGlobal('isSecureContext', false)
    await start()
    expect(troubles).toEqual(['insecurePage'])
    await pass(60_000)
    await touch()
    expect(asked).toBe(0)
  })

  it('is put again at a touch when it was waved away, but neither by itself nor often', async () => {
    answer = 'NotAllowedError'
    permission.state = 'prompt'
    await start()
    expect(troubles).toEqual(['notAllowed'])
    await touch()
    await pass(29_000)
    expect(asked).toBe(1)
    await pass(2000)
    expect(asked).toBe(1)
    answer = 'allow'
    await touch()
    expect(asked).toBe(2)
    expect(troubles).toEqual(['notAllowed', undefined])
  })
})

describe('a microphone that is not allowed', () => {
  beforeEach(async () => {
    answer = 'NotAllowedError'
    permission.state = 'denied'
    await start()
    await pass(5000)
    expect(troubles).toEqual(['notAllowed'])
    expect(asked).toBe(1)
    answer = 'allow'
  })

  it('works at once when the browser tells that it is', async () => {
    permit('granted', true)
    await settle()
    expect(troubles).toEqual(['notAllowed', undefined])
  })

  it('works soon when the browser does not tell', async () => {
    permit('granted', false)
    await pass(1000)
    expect(troubles).toEqual(['notAllowed', undefined])
  })

  it('works at a touch even when the browser says the wrong thing', async () => {
    await touch()
    expect(troubles).toEqual(['notAllowed', undefined])
  })
})

describe('a microphone that ends in the middle', () => {
  beforeEach(async () => {
    await start()
    await pass(300)
    expect(troubles).toEqual([])
  })

  it('was lost if it is still allowed, and is tried at once and then every other second', async () => {
    answer = 'NotFoundError'
    track.dispatchEvent(new Event('ended'))
    await settle()
    expect(troubles).toEqual(['microphoneLost'])
    await pass(4500)
    expect(asked).toBe(4)
    answer = 'allow'
    await pass(2000)
    expect(troubles).toEqual(['microphoneLost', undefined])
    expect(captures.map(({ closed }) => closed())).toEqual([true, false])
  })

  it('is no longer allowed if the permission went, whichever is told first', async () => {
    answer = 'NotAllowedError'
    permit('denied', true)
    track.dispatchEvent(new Event('ended'))
    await settle()
    await settle()
    expect(troubles.at(-1)).toBe('notAllowed')
    await pass(10_000)
    expect(asked).toBe(1)
    answer = 'allow'
    permit('granted', true)
    await settle()
    expect(troubles.at(-1)).toBeUndefined()
  })
})

describe('a stop', () => {
  it('lets the microphone go and asks for nothing more', async () => {
    await start()
    await source.stop()
    expect(captures.map(({ closed }) => closed())).toEqual([true])
    answer = 'NotAllowedError'
    await pass(5000)
    await touch()
    permit('granted', true)
    expect(asked).toBe(1)
    expect(troubles).toEqual([])
  })

  it('while the question is open: who allows it then opens nothing', async () => {
    let allow: (stream: unknown) => void = () => undefined
    navigator.mediaDevices.getUserMedia = () =>
      new Promise((resolve) => (allow = resolve as typeof allow))
    await start()
    await source.stop()
    allow({ getAudioTracks: () => [] })
    await settle()
    expect(captures).toEqual([])
  })
})
