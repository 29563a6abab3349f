import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { build } from 'vite'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Page } from 'playwright-core'
import type { createHowlerSound } from '../../../src/adapters/sound/howlerSound.ts'
import type { Clock } from '../../../src/ports/clock.ts'
import { CHIMES, type SoundTrouble } from '../../../src/ports/sound.ts'
import { VOICES, type PromptManifest } from '../../../scripts/makePrompts.ts'
import { openBrowser, type OpenBrowser } from '../../support/e2eBrowser.ts'
import { readWav } from '../../support/wav.ts'

const root = join(import.meta.dirname, '..', '..', '..')
const ORIGIN = 'http://sound.test'

interface Told {
  readonly edge: boolean
  readonly at_ms: number
}
/** A sound that Web Audio began to play. */
interface Begun {
  readonly length_s: number
  readonly at_ms: number
}
interface SoundPage extends Window {
  Bundle: { createHowlerSound: typeof createHowlerSound }
  sound: ReturnType<typeof createHowlerSound>
  told: Told[]
  troubles: (SoundTrouble | undefined)[]
  begun: Begun[]
}

let browser: OpenBrowser
let script: string

/** The adapter alone, as one script for a page. */
async function bundled(): Promise<string> {
  const out = await build({
    root,
    configFile: false,
    publicDir: false,
    logLevel: 'error',
    build: {
      write: false,
      lib: {
        entry: join(root, 'src/adapters/sound/howlerSound.ts'),
        name: 'Bundle',
        formats: ['iife'],
      },
    },
  })
  const [first] = Array.isArray(out) ? out : [out]
  const chunk = first && 'output' in first ? first.output[0] : undefined
  if (!chunk) throw new Error('The adapter could not be bundled.')
  return chunk.code
}

/** Writes down, at the last place before the loudspeaker, what is played; runs inside the page. */
function watchWebAudio(): void {
  const begun: Begun[] = []
  Object.assign(window, { begun })
  const proto = AudioBufferSourceNode.prototype
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with its object below
  const start = proto.start
  proto.start = function (this: AudioBufferSourceNode, ...times: number[]) {
    const length_s = Math.min(times[2] ?? Infinity, this.buffer?.duration ?? 0)
    begun.push({ length_s, at_ms: Date.now() })
    start.apply(this, times as [number, number, number])
  }
}

/** A page with the adapter in it, fed with the files of `public` that are not kept from it. */
async function soundPage(served: (path: string) => boolean = () => true): Promise<Page> {
  const page = await browser.context.newPage()
  await page.route(`${ORIGIN}/**`, async (route) => {
    const { pathname } = new URL(route.request().url())
    if (pathname === '/')
      return route.fulfill({ contentType: 'text/html', body: '<!doctype html>' })
    if (!served(pathname)) return route.fulfill({ status: 404 })
    return route.fulfill({ path: join(root, 'public', pathname) }).catch(() => {
      return route.fulfill({ status: 404 })
    })
  })
  await page.goto(`${ORIGIN}/`)
  await page.addScriptTag({ content: script })
  await page.evaluate((origin) => {
    const here = window as unknown as SoundPage
    const clock: Clock = {
      offsetAt_min: () => 0,
      read: () => ({ wall_ms: Date.now(), mono_ms: performance.now(), boot: 'b', offset_min: 0 }),
      wakeAt(mono_ms, wake) {
        const timer = setTimeout(wake, mono_ms - performance.now())
        return () => clearTimeout(timer)
      },
    }
    here.told = []
    here.troubles = []
    here.sound = here.Bundle.createHowlerSound({ base: `${origin}/`, voice: 'af_heart', clock })
    here.sound.onSpeaking((edge) => here.told.push({ edge, at_ms: Date.now() }))
    here.sound.onTrouble((trouble) => here.troubles.push(trouble))
  }, ORIGIN)
  return page
}

const told = (page: Page): Promise<Told[]> =>
  page.evaluate(() => (window as unknown as SoundPage).told)
const troubles = (page: Page): Promise<(SoundTrouble | undefined)[]> =>
  page.evaluate(() => (window as unknown as SoundPage).troubles)
const begun = (page: Page): Promise<Begun[]> =>
  page.evaluate(() => (window as unknown as SoundPage).begun)
const spokenOut = (page: Page, edges: number): Promise<unknown> =>
  page.waitForFunction((count) => (window as unknown as SoundPage).told.length >= count, edges, {
    timeout: 10_000,
    polling: 20,
  })

beforeAll(async () => {
  script = await bundled()
  browser = await openBrowser()
  await browser.context.addInitScript(watchWebAudio)
})
afterAll(() => browser?.close())

describe('the sounds in Chromium', () => {
  it('plays every chime, whole, without closing the gate', async () => {
    const page = await soundPage()
    await page.evaluate((names) => {
      names.forEach((name) => (window as unknown as SoundPage).sound.chime(name))
    }, CHIMES)
    const lengths = CHIMES.map((name) => {
      const { rate_Hz, samples } = readWav(readFileSync(join(root, `public/chimes/${name}.wav`)))
      return (samples.length / rate_Hz).toFixed(2)
    })
    await expect
      .poll(async () => (await begun(page)).map(({ length_s }) => length_s.toFixed(2)).sort(), {
        timeout: 5000,
      })
      .toEqual(lengths.sort())
    expect(await troubles(page)).toEqual([])
    expect(await told(page)).toEqual([])
    await page.close()
  })

  it.each(VOICES)('speaks as $voice with the gate closed just so long', async ({ voice }) => {
    const manifest = JSON.parse(
      readFileSync(join(root, 'public/prompts/manifest.json'), 'utf8'),
    ) as PromptManifest
    const seconds = manifest[voice]!['app.test']!.seconds
    const page = await soundPage()
    await page.evaluate((name) => {
      const { sound } = window as unknown as SoundPage
      sound.setVoice(name)
      sound.speak('app.test')
    }, voice)
    await spokenOut(page, 2)
    const edges = await told(page)
    const [played, ...more] = await begun(page)
    expect(await troubles(page)).toEqual([])
    expect(more).toEqual([])
    // What Chromium decodes and what the manifest says differ by less than a block of the Vorbis coder.
    expect(Math.abs(played!.length_s - seconds)).toBeLessThan(0.1)
    expect(edges.map(({ edge }) => edge)).toEqual([true, false])
    const [closed, opened] = edges.map(({ at_ms }) => at_ms)
    expect(closed).toBeGreaterThanOrEqual(played!.at_ms)
    // Never open while the prompt is heard; 50 ms for the rounding of two clocks.
    expect(opened! - played!.at_ms).toBeGreaterThan(played!.length_s * 1000 - 50)
    await page.close()
  })

  it('ends a prompt for the next one', async () => {
    const page = await soundPage()
    const asked: string[] = []
    page.on('request', (request) => asked.push(new URL(request.url()).pathname))
    await page.evaluate(() => (window as unknown as SoundPage).sound.speak('app.test'))
    await spokenOut(page, 1)
    await page.evaluate(() => (window as unknown as SoundPage).sound.speak('step.band'))
    await spokenOut(page, 4)
    expect((await told(page)).map(({ edge }) => edge)).toEqual([true, false, true, false])
    expect(await begun(page)).toHaveLength(2)
    expect(asked.filter((path) => path.startsWith('/prompts/'))).toEqual([
      '/prompts/af_heart/app.test.ogg',
      '/prompts/af_heart/step.band.ogg',
    ])
    await page.close()
  })

  it('tells of a prompt that is not there and leaves the gate open', async () => {
    const page = await soundPage()
    await page.evaluate(() => (window as unknown as SoundPage).sound.speak('no.such.prompt'))
    await expect
      .poll(() => troubles(page), { timeout: 5000 })
      .toEqual([{ code: 'promptsMissing', detail: 'prompts/af_heart/no.such.prompt.ogg' }])
    expect(await told(page)).toEqual([])
    await page.close()
  })

  it('sounds the alarm when it is tested, and says so', async () => {
    const page = await soundPage()
    const outcome = await page.evaluate(() => (window as unknown as SoundPage).sound.test())
    expect(outcome).toBe('played')
    expect(await begun(page)).toHaveLength(1)
    expect(await told(page)).toEqual([])
    await page.close()
  })

  it('tells of alarms that cannot be loaded before they are needed', async () => {
    const page = await soundPage((path) => path !== '/chimes/severe.wav')
    await expect
      .poll(() => troubles(page), { timeout: 5000 })
      .toEqual([{ code: 'chimesMissing', detail: 'chimes/severe.wav' }])
    await page.close()
  })
})
