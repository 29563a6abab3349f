import { join } from 'node:path'
import { build } from 'vite'
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { Page } from 'playwright-core'
import type { createHowlerSound } from '../../../src/adapters/sound/howlerSound.ts'
import type { Clock } from '../../../src/ports/clock.ts'
import type { OutputDevice } from '../../../src/ports/earpiece.ts'
import { openBrowser, type OpenBrowser } from '../../support/e2eBrowser.ts'

const root = join(import.meta.dirname, '..', '..', '..')
/** A page has to be of a safe origin to be told of devices. */
const ORIGIN = 'https://ear.test'

interface EarPage extends Window {
  Bundle: { createHowlerSound: typeof createHowlerSound }
  sound: ReturnType<typeof createHowlerSound>
  edges: boolean[]
  /** Where each sound went that Web Audio began to play. */
  begun: unknown[]
}

let browser: OpenBrowser
let script: string

beforeAll(async () => {
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
  script = chunk.code
  browser = await openBrowser()
  await browser.context.grantPermissions(['microphone'], { origin: ORIGIN })
})
afterAll(() => browser?.close())

/** Notes at the last place before the outputs where a sound goes; runs inside the page. */
function watchWhere(withoutSinks: boolean): void {
  const begun: unknown[] = []
  Object.assign(window, { begun })
  if (withoutSinks) Reflect.deleteProperty(AudioContext.prototype, 'setSinkId')
  const proto = AudioBufferSourceNode.prototype
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with its object below
  const start = proto.start
  proto.start = function (this: AudioBufferSourceNode, ...times: number[]) {
    begun.push((this.context as AudioContext & { sinkId?: unknown }).sinkId)
    start.apply(this, times as [number, number, number])
  }
}

async function earPage(withoutSinks = false): Promise<Page> {
  const page = await browser.context.newPage()
  await page.addInitScript(watchWhere, withoutSinks)
  await page.route(`${ORIGIN}/**`, async (route) => {
    const { pathname } = new URL(route.request().url())
    if (pathname === '/')
      return route.fulfill({ contentType: 'text/html', body: '<!doctype html>' })
    return route.fulfill({ path: join(root, 'public', pathname) })
  })
  await page.goto(`${ORIGIN}/`)
  await page.addScriptTag({ content: script })
  await page.evaluate(async (origin) => {
    const here = window as unknown as EarPage
    // Names and ids are told only to who may listen.
    const stream = await navigator.mediaDevices.getUserMedia({ audio: true })
    stream.getTracks().forEach((track) => track.stop())
    const clock: Clock = {
      offsetAt_min: () => 0,
      read: () => ({ wall_ms: Date.now(), mono_ms: performance.now(), boot: 'b', offset_min: 0 }),
      wakeAt(mono_ms, wake) {
        const timer = setTimeout(wake, mono_ms - performance.now())
        return () => clearTimeout(timer)
      },
    }
    here.edges = []
    const { mediaDevices: devices } = navigator
    here.sound = here.Bundle.createHowlerSound({ base: `${origin}/`, voice: 'af_heart', clock, devices }) // prettier-ignore
    here.sound.onSpeaking((edge) => here.edges.push(edge))
  }, ORIGIN)
  return page
}

const outputs = (page: Page): Promise<readonly OutputDevice[]> =>
  page.evaluate(() => (window as unknown as EarPage).sound.earpiece.list())
const use = (page: Page, device: OutputDevice | undefined): Promise<void> =>
  page.evaluate(
    (chosen) =>
      (window as unknown as EarPage).sound.earpiece.use({ device: chosen, speakWithout: false }),
    device,
  )
const state = (page: Page): Promise<string> =>
  page.evaluate(() => (window as unknown as EarPage).sound.earpiece.state())
const say = (page: Page): Promise<void> =>
  page.evaluate(() => (window as unknown as EarPage).sound.speak('app.test'))
const begun = (page: Page): Promise<unknown[]> =>
  page.evaluate(() => (window as unknown as EarPage).begun)

it('lists the outputs by name, sends words and tones to the one that is chosen, and takes them back', async () => {
  const page = await earPage()
  const [ear, ...more] = await outputs(page)
  expect(ear?.name).toBeTruthy()
  expect(more.length).toBeGreaterThan(0)
  await use(page, ear)
  await expect.poll(() => state(page)).toBe('there')
  await say(page)
  await expect.poll(() => begun(page)).toEqual([ear?.id])
  expect(await page.evaluate(() => (window as unknown as EarPage).sound.test('told'))).toBe(
    'played',
  )
  expect(await begun(page)).toEqual([ear?.id, ear?.id])
  await use(page, undefined)
  await expect.poll(() => state(page)).toBe('loudspeaker')
  expect(await page.evaluate(() => (window as unknown as EarPage).sound.test('told'))).toBe(
    'played',
  )
  expect((await begun(page)).at(-1)).toBe('')
  await page.close()
})

it('says nothing while the one that is chosen is not there; tones come from the default output', async () => {
  const page = await earPage()
  await use(page, { id: 'of another day', name: 'A lost earpiece' })
  await expect.poll(() => state(page)).toBe('gone')
  await say(page)
  expect(await page.evaluate(() => (window as unknown as EarPage).sound.test())).toBe('played')
  expect(await begun(page)).toEqual([''])
  expect(await page.evaluate(() => (window as unknown as EarPage).edges)).toEqual([])
  await page.close()
})

it('goes through an audio element where a context cannot be sent anywhere', async () => {
  const page = await earPage(true)
  const [ear] = await outputs(page)
  await page.mouse.click(5, 5)
  await use(page, ear)
  await expect.poll(() => state(page)).toBe('there')
  await say(page)
  await expect
    .poll(() => page.evaluate(() => (window as unknown as EarPage).edges), { timeout: 8000 })
    .toEqual([true, false])
  await page.close()
})
