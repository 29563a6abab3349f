import { createHash, X509Certificate } from 'node:crypto'
import type { Page } from 'playwright-core'
import { hubSiteText } from '../../src/core/hub/hubSite.ts'
import { CLOSED_CLINIC, type ClosedHub } from './closedHub.ts'
import { cuttableLine, type CuttableLine } from './cuttableLine.ts'
import { openBrowser, type BrowserOptions, type OpenBrowser } from './e2eBrowser.ts'
import { recordHearings } from './e2eHearings.ts'
import { fakeMicrophone } from './e2eMic.ts'
import { serveSite, type ServedApp } from './e2eSite.ts'
import { recordSounds } from './e2eSounds.ts'
import { watch } from './e2eWatch.ts'

/** A name that leads nowhere but to where each browser is told. */
const HUB_NAME = 'hub.stillhand.test'
const HUB_PORT = 9222

/** Builds the app with the site's file of that hub, and serves it. */
export function serveWithHub(hub: ClosedHub): Promise<ServedApp> {
  const servers = [`wss://${HUB_NAME}:${HUB_PORT}`]
  const text = hubSiteText({ clinic: CLOSED_CLINIC, servers, joiningJwt: hub.keys.joiningJwt })
  return serveSite({ 'hub.json': text })
}

/** One tablet of the clinic, on a network of its own. */
export interface Tablet {
  readonly name: string
  readonly browser: OpenBrowser
  readonly page: Page
  readonly line: CuttableLine
  readonly faults: readonly string[]
}

/** Chromium tells on the console that nobody answers: with the hub away that is so. */
const AWAY = /WebSocket connection to 'wss:|net::ERR_INTERNET_DISCONNECTED/

export async function openTablet(
  name: string,
  app: ServedApp,
  hub: ClosedHub,
  { isDeaf = false }: Pick<BrowserOptions, 'isDeaf'> = {},
): Promise<Tablet> {
  const line = await cuttableLine(hub.web)
  const spki = new X509Certificate(hub.certificate).publicKey.export({
    type: 'spki',
    format: 'der',
  })
  const pin = createHash('sha256').update(spki).digest('base64')
  const browser = await openBrowser({
    ...{ width: 1180, height: 820, isDeaf },
    args: [
      // In the place of the clinic's own authority, which a tablet trusts by its settings.
      `--ignore-certificate-errors-spki-list=${pin}`,
      `--host-resolver-rules=MAP ${HUB_NAME}:${HUB_PORT} 127.0.0.1:${line.port}`,
    ],
  })
  await fakeMicrophone(browser.context)
  await recordSounds(browser.context)
  await recordHearings(browser.context)
  await browser.context.addInitScript(shiftDate)
  const all = await watch(browser.context, app.baseUrl)
  const page = browser.context.pages()[0] ?? (await browser.context.newPage())
  await page.goto(app.baseUrl)
  await page.locator('h1').first().waitFor()
  return {
    ...{ name, browser, page, line },
    get faults() {
      return all.filter((fault) => !AWAY.test(fault))
    },
  }
}

/** Sets the page's clock wrong by what was asked for before it was loaded. */
function shiftDate(): void {
  // A page without an address of its own keeps nothing.
  const shift_ms =
    location.protocol === 'about:' ? 0 : Number(localStorage.getItem('test-shift') ?? 0)
  if (shift_ms === 0) return
  const Real = Date
  const Shifted = function (this: unknown, ...parts: unknown[]) {
    if (!new.target) return new Real(Real.now() + shift_ms).toString()
    return parts.length === 0
      ? new Real(Real.now() + shift_ms)
      : (Reflect.construct(Real, parts, new.target) as Date)
  }
  Object.setPrototypeOf(Shifted, Real)
  Shifted.prototype = Real.prototype
  Object.assign(Shifted, { now: () => Real.now() + shift_ms })
  Object.assign(globalThis, { Date: Shifted })
}

/** Loads the app anew with a clock that is wrong by so much. */
export async function setClock({ page }: Tablet, shift_ms: number): Promise<void> {
  await page.evaluate((ms) => localStorage.setItem('test-shift', String(ms)), shift_ms)
  await page.reload()
  await page.locator('h1').first().waitFor()
}

/** The app behind the page, as its screens have it. */
interface AppBehind {
  readonly store: { getState(): object }
}

/** A part of what the screens are made of, where no screen shows it in words. */
export const stateOf = (page: Page, part: string): Promise<unknown> =>
  page.evaluate<unknown, string>(behind, part)

function behind(part: string): unknown {
  interface Fiber {
    readonly memoizedProps?: { readonly port?: AppBehind } | null
    readonly child?: Fiber | null
  }
  interface Container {
    readonly stateNode: { readonly current: Fiber }
  }
  const root = document.getElementById('root') as unknown as Readonly<Record<string, Container>>
  const key = Object.keys(root).find((each) => each.startsWith('__reactContainer$')) ?? ''
  let fiber: Fiber | null | undefined = root[key]?.stateNode.current
  while (fiber && !fiber.memoizedProps?.port) fiber = fiber.child
  const port = fiber?.memoizedProps?.port
  if (!port) throw new Error('The app is not on the page.')
  return (port.store.getState() as Readonly<Record<string, unknown>>)[part]
}
