import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium, type BrowserContext } from 'playwright-core'
import { needChromium } from '../../scripts/findChromium.ts'
import { useDeafEngine } from './deafEngine.ts'

export interface BrowserOptions {
  /** A WAV file that Chromium's own fake microphone plays once; without it that microphone is silent. */
  readonly micFile?: string
  /** Profile folder to open again after a kill. */
  readonly profile?: string
  readonly width?: number
  readonly height?: number
  /** The browser refuses to keep the screen lit. */
  readonly mayGoDark?: boolean
  /** Nobody speaks to its pages and nothing is tried without a network: they get no engine and no service worker. */
  readonly isDeaf?: boolean
  /** More switches of Chromium. */
  readonly args?: readonly string[]
}

export interface OpenBrowser {
  readonly context: BrowserContext
  readonly profile: string
  /** Ends the browser at once, as a crash or a pulled plug does; the profile stays. */
  kill(): Promise<void>
  /** Ends the browser in good order and removes the profile. */
  close(): Promise<void>
}

/** A headless Chromium with a profile of its own, permission for the microphone, and sound that needs no click. */
export async function openBrowser(options: BrowserOptions = {}): Promise<OpenBrowser> {
  const profile = options.profile ?? mkdtempSync(join(tmpdir(), 'stillhand-profile-'))
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: needChromium(),
    headless: true,
    viewport: { width: options.width ?? 1280, height: options.height ?? 800 },
    locale: 'en-US',
    serviceWorkers: options.isDeaf ? 'block' : 'allow',
    // Whatever is not named here is refused.
    permissions: options.mayGoDark ? ['microphone'] : ['microphone', 'screen-wake-lock'],
    args: [
      '--autoplay-policy=no-user-gesture-required',
      '--use-fake-ui-for-media-stream',
      '--use-fake-device-for-media-stream',
      '--disable-dev-shm-usage',
      ...(options.micFile ? [`--use-file-for-fake-audio-capture=${options.micFile}%noloop`] : []),
      ...(options.args ?? []),
    ],
  })
  if (options.isDeaf) await useDeafEngine(context)
  const kill = async (): Promise<void> => {
    const gone = new Promise((resolve) => context.once('close', resolve))
    const session = await context.browser()?.newBrowserCDPSession()
    if (!session) throw new Error('This browser cannot be crashed on purpose.')
    session.send('Browser.crash').catch(() => undefined)
    await gone
  }
  const close = async (): Promise<void> => {
    await context.close()
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
  }
  return { context, profile, kill, close }
}
