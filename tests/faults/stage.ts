import { mkdtempSync, rmSync } from 'node:fs'
import type { Server } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import {
  chromium,
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  type Page,
} from 'playwright-core'
import { staticServer } from '../../scripts/build/staticServer.ts'
import { needChromium } from '../../scripts/findChromium.ts'
import { installTools } from './inPage.ts'
import { setSiteUp } from './site.ts'
import type { Trial } from './trial.ts'

const DIST = join(import.meta.dirname, '..', '..', 'dist')
const ARGS = [
  '--autoplay-policy=no-user-gesture-required',
  '--use-fake-device-for-media-stream',
  '--disable-dev-shm-usage',
]
const LOOK = { viewport: { width: 1280, height: 800 }, locale: 'en-US' }

type StoredState = Awaited<ReturnType<BrowserContext['storageState']>>

export interface TrialOptions {
  /** Listens; the microphone is Chromium's own fake one, which beeps. */
  readonly voice?: boolean
  readonly microphone?: 'allowed' | 'notAllowed'
  /** Service workers are allowed; without, every file comes from the server. */
  readonly offline?: boolean
  /** Runs before any page of it is opened. */
  readonly prepare?: (context: BrowserContext) => Promise<unknown>
  /** Does not wait until the app shows its first screen. */
  readonly bare?: boolean
  /** Nothing is stored yet: the site is not set up. */
  readonly fresh?: boolean
  /** Runs on the first screen, before anything else. */
  readonly onFirst?: (page: Page) => Promise<void>
  /** Served from elsewhere than by the stage. */
  readonly baseUrl?: string
  /** Runs in a tab of its own before the app is opened. */
  readonly first?: (page: Page, baseUrl: string) => Promise<void>
  /** The site is set up anew in a profile that outlives the browser. */
  readonly profile?: string
}

/** What the faults are made on: one browser, a server of the built app, and a place for each draw. */
export interface Stage {
  readonly baseUrl: string
  /** A new device on its first screen: nothing of any other trial is stored there. */
  trial(options?: TrialOptions): Promise<Trial>
  /** A server of its own, which can be taken away; of the built app, or of another folder. */
  ownServer(root?: string): Promise<{ readonly url: string; close(): Promise<void> }>
  newProfile(): string
  close(): Promise<void>
}

async function listening(server: Server): Promise<string> {
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const address = server.address()
  if (typeof address !== 'object' || !address) throw new Error('The server has no port.')
  return `http://localhost:${address.port}`
}

const closing = (server: Server): Promise<void> =>
  new Promise((resolve) => {
    server.closeAllConnections()
    server.close(() => resolve())
  })

/** @throws Error when there is no Chromium or no built app */
export async function openStage(): Promise<Stage> {
  const server = staticServer(DIST)
  const baseUrl = await listening(server)
  const browser = await chromium.launch({ executablePath: needChromium(), args: ARGS })
  const folders: string[] = []
  const open = new Set<BrowserContext>()
  const states = new Map<boolean, Promise<StoredState>>()

  /** What a device stores whose site is set up; made once and given to every trial. */
  const stateOf = (voice: boolean): Promise<StoredState> => {
    const known = states.get(voice)
    if (known) return known
    const made = makeState(browser, baseUrl, voice)
    states.set(voice, made)
    return made
  }

  async function contextFor(options: TrialOptions): Promise<BrowserContext> {
    const { voice = false, microphone = 'allowed', offline = false, profile } = options
    const common: BrowserContextOptions = {
      ...LOOK,
      serviceWorkers: offline ? 'allow' : 'block',
      permissions: microphone === 'allowed' ? ['microphone'] : [],
    }
    if (profile !== undefined) {
      const executablePath = needChromium()
      return chromium.launchPersistentContext(profile, { executablePath, args: ARGS, ...common })
    }
    if (options.fresh) return browser.newContext(common)
    return browser.newContext({ ...common, storageState: await stateOf(voice) })
  }

  async function openTrial(
    context: BrowserContext,
    page: Page,
    options: TrialOptions,
  ): Promise<Trial> {
    const opened_ms = Date.now()
    const address = options.baseUrl ?? baseUrl
    await page.goto(address)
    if (!options.bare) await page.locator('h1').waitFor()
    await options.onFirst?.(page)
    return { context, baseUrl: address, page, confirmed: 0, opened_ms }
  }

  return {
    baseUrl,
    trial: async (options = {}) => {
      const context = await contextFor(options)
      open.add(context)
      context.setDefaultTimeout(20_000)
      await installTools(context)
      await options.prepare?.(context)
      if (options.first) await options.first(await context.newPage(), baseUrl)
      const page = options.first ? undefined : context.pages()[0]
      return openTrial(context, page ?? (await context.newPage()), options)
    },
    ownServer: async (root = DIST) => {
      const own = staticServer(root)
      return { url: await listening(own), close: () => closing(own) }
    },
    newProfile: () => {
      const folder = mkdtempSync(join(tmpdir(), 'stillhand-faults-'))
      folders.push(folder)
      return folder
    },
    close: async () => {
      for (const context of open) await context.close().catch(() => undefined)
      await browser.close()
      await closing(server)
      for (const folder of folders) rmSync(folder, { recursive: true, force: true, maxRetries: 5 })
    },
  }
}

async function makeState(browser: Browser, baseUrl: string, voice: boolean): Promise<StoredState> {
  const context = await browser.newContext({ ...LOOK, serviceWorkers: 'block' })
  const page = await context.newPage()
  await page.goto(baseUrl)
  await page.locator('h1').waitFor()
  await setSiteUp(page, voice)
  // A key cannot be copied: each device makes its own.
  await page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        indexedDB.deleteDatabase('stillhand-key').onsuccess = () => resolve()
      }),
  )
  const state = await context.storageState({ indexedDB: true })
  await context.close()
  return state
}
