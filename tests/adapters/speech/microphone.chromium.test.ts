import type { Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import manifest from '../../../models/manifest.json'
import { joined, packed, roomNoise, speechBench, spoken, type SpeechBench } from '../../support/e2eSpeech.ts' // prettier-ignore

/** A microphone in the page that the tests can speak into, mute and pull out. */
interface TestMic {
  say(base64: string): Promise<void>
  setRoom(loudness: number): void
  pull(): void
  refuse(refused: boolean): void
  /** The person takes the permission away or gives it; a browser may tell the page of it or not. */
  permit(state: PermissionState, tells: boolean): void
}
type Writable<T> = { -readonly [K in keyof T]: T[K] }
declare global {
  var mic: TestMic
}

/** Told within two seconds, and a little for a busy machine. */
const TOLD_ms = 2500

let bench: SpeechBench
let page: Page
beforeAll(async () => {
  bench = await speechBench()
})
afterAll(() => bench.close())

async function installMic(): Promise<void> {
  await page.evaluate(async () => {
    const audio = new AudioContext({ sampleRate: 48_000 })
    await audio.resume()
    const room = audio.createBufferSource()
    room.buffer = audio.createBuffer(1, audio.sampleRate, audio.sampleRate)
    room.buffer.getChannelData(0).forEach((_, i, noise) => (noise[i] = 2 * Math.random() - 1))
    room.loop = true
    const gain = audio.createGain()
    gain.gain.value = 0.001
    room.connect(gain)
    room.start()
    let out: MediaStreamAudioDestinationNode | undefined
    let refused = false
    const answer: Writable<Pick<PermissionStatus, 'name' | 'state' | 'onchange'>> = {
      name: 'microphone',
      state: 'granted',
      onchange: null,
    }
    const permission = Object.assign(new EventTarget(), answer)
    navigator.permissions.query = () => Promise.resolve(permission)
    const end = (): void =>
      out?.stream.getTracks().forEach((track) => track.dispatchEvent(new Event('ended')))
    navigator.mediaDevices.getUserMedia = () => {
      if (permission.state !== 'granted')
        return Promise.reject(new DOMException('No.', 'NotAllowedError'))
      if (refused) return Promise.reject(new DOMException('No.', 'NotFoundError'))
      out = audio.createMediaStreamDestination()
      gain.connect(out)
      return Promise.resolve(out.stream)
    }
    globalThis.mic = {
      async say(base64) {
        const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))
        const samples = Float32Array.from(new Int16Array(bytes.buffer), (value) => value / 32768)
        const voice = audio.createBufferSource()
        voice.buffer = audio.createBuffer(1, samples.length, 16_000)
        voice.buffer.copyToChannel(samples, 0)
        if (out) voice.connect(out)
        await new Promise((resolve) => {
          voice.onended = resolve
          voice.start()
        })
      },
      setRoom: (loudness) => (gain.gain.value = loudness),
      pull: end,
      refuse: (next) => (refused = next),
      permit(state, tells) {
        permission.state = state
        if (state !== 'granted') end()
        if (tells) permission.dispatchEvent(new Event('change'))
      },
    }
  })
}

const start = (): Promise<number> =>
  page.evaluate(
    ([modelUrl, sha256]) => {
      vosk.openMicrophone({ modelUrl, sha256 })
      vosk.setPhrases(['band on', 'needle in'])
      return vosk.start()
    },
    [
      `${bench.server.url}/models/stillhand-en-0.2.tar.gz`,
      manifest['stillhand-en-0.2.tar.gz'].sha256,
    ] as const,
  )

const kinds = async (): Promise<readonly string[]> =>
  (await page.evaluate(() => vosk.states())).map((state) =>
    state.kind === 'trouble' ? state.code : state.kind,
  )

const finals = async (): Promise<readonly string[]> =>
  (await page.evaluate(() => vosk.hearings()))
    .filter(({ final, text }) => final && text !== '')
    .map(({ text }) => text)

const becomes = (kind: string, within_ms: number): Promise<void> =>
  expect.poll(async () => (await kinds()).at(-1), { timeout: within_ms, interval: 50 }).toBe(kind)

describe('the microphone in Chromium', () => {
  beforeAll(async () => {
    page = await bench.freshPage()
    await page.mouse.click(5, 5)
    await installMic()
    await start()
  })
  afterAll(() => page.context().close())
  beforeEach(() => becomes('listening', 20_000))

  it('is heard through the worklet', async () => {
    await page.waitForTimeout(1000)
    await page.evaluate(
      (sound) => mic.say(sound),
      packed(joined(spoken('band on'), roomNoise(100))),
    )
    await expect.poll(finals, { timeout: 10_000 }).toEqual(['band on'])
  })

  it('gives its level about ten times a second', async () => {
    const count = (): Promise<number> => page.evaluate(() => vosk.levels().length)
    const before = await count()
    await page.waitForTimeout(3000)
    expect((await count()) - before).toBeGreaterThan(20)
    expect((await count()) - before).toBeLessThan(50)
  })

  it('is told to be muted when it gives digital silence, and well when there is sound', async () => {
    await page.evaluate(() => mic.setRoom(0))
    await becomes('microphoneMuted', TOLD_ms)
    await page.evaluate(() => mic.setRoom(0.001))
    await becomes('listening', TOLD_ms)
  })

  it('is told to be lost when it is pulled out, and is opened again by itself', async () => {
    await page.evaluate(() => mic.refuse(true))
    await page.evaluate(() => mic.pull())
    await becomes('microphoneLost', TOLD_ms)
    await page.evaluate(() => mic.refuse(false))
    await becomes('listening', 10_000)
  })

  it.each([
    ['that tells the page of it', true],
    ['that tells nothing', false],
  ])(
    'is told to be no longer allowed, and is back once it is, in a browser %s',
    async (_, tells) => {
      await page.evaluate((told) => mic.permit('denied', told), tells)
      await becomes('notAllowed', TOLD_ms)
      await page.evaluate((told) => mic.permit('granted', told), tells)
      await becomes('listening', TOLD_ms)
    },
  )

  it('is told to be held back by the browser, and goes on at a touch', async () => {
    await page.evaluate(() => vosk.suspend())
    await becomes('audioSuspended', TOLD_ms)
    await page.mouse.click(5, 5)
    await becomes('listening', TOLD_ms)
  })

  it('is told to be missing, without hanging, when the browser gives none', async () => {
    await page.evaluate(() => vosk.stop())
    await page.evaluate(() => mic.refuse(true))
    await start()
    await becomes('noMicrophone', TOLD_ms)
    await page.evaluate(() => {
      mic.refuse(false)
      navigator.mediaDevices.dispatchEvent(new Event('devicechange'))
    })
    await becomes('listening', 20_000)
  })
})

describe('a browser that lets no microphone of another rate into a graph of 16 kHz', () => {
  it('is heard at the rate of the microphone', async () => {
    page = await bench.freshPage()
    await page.mouse.click(5, 5)
    await installMic()
    await page.evaluate(() => {
      const PlainContext = AudioContext
      window.AudioContext = class extends PlainContext {
        override createMediaStreamSource(stream: MediaStream) {
          if (this.sampleRate === 16_000)
            throw new DOMException('Rates differ.', 'NotSupportedError')
          return super.createMediaStreamSource(stream)
        }
      }
    })
    await start()
    await becomes('listening', 20_000)
    await page.waitForTimeout(1000)
    await page.evaluate(
      (sound) => mic.say(sound),
      packed(joined(spoken('band on'), roomNoise(100))),
    )
    await expect.poll(finals, { timeout: 10_000 }).toEqual(['band on'])
    await page.context().close()
  })
})

describe('the browser’s own permission', () => {
  it('is told to be missing, is taken up when it is given, and told when it is taken away', async () => {
    page = await bench.freshPage()
    await page.mouse.click(5, 5)
    await start()
    await becomes('notAllowed', TOLD_ms + 2000)
    await page.context().grantPermissions(['microphone'])
    await becomes('listening', 20_000)
    await page.context().clearPermissions()
    await becomes('notAllowed', TOLD_ms)
    await page.context().close()
  })
})
