import type { Page } from 'playwright-core'
import handOver from '../../src/data/en/handOver.json' with { type: 'json' }
import recordServer from '../../src/data/en/recordServer.json' with { type: 'json' }
import screens from '../../src/data/en/screens.json' with { type: 'json' }
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import type { DrawOpened } from '../../src/core/protocol/events.ts'
import { openBrowser, type OpenBrowser } from './e2eBrowser.ts'
import { serveSite, type ServedApp } from './e2eSite.ts'
import { watch } from './e2eWatch.ts'
import { MRN, ORDERS } from './fhirTransaction.ts'
import { logOf, sampleOpening, straightLines } from './sampleLog.ts'
import { smartServer } from './smartServer.ts'

/** A request that came through the login to the record server. */
export interface Came {
  readonly method: string
  readonly path: string
  readonly body: string
}
type Answer = Awaited<ReturnType<Awaited<ReturnType<typeof smartServer>>['behind']['answer']>>

/** The category of orders that are for this place. */
export const CATEGORY = 'https://example.org/category'

/**
 * A site with a record server behind a login, and the app as that site builds it: the page may reach that server and no
 * other.
 */
export async function siteWithRecordServer() {
  const smart = await smartServer()
  const came: Came[] = []
  const hooks = {
    /** Before it is done; an answer stands in the place of the server's. */
    before: undefined as ((request: Came) => Promise<Answer | undefined>) | undefined,
    /** When it is done and not yet answered. */
    after: undefined as ((request: Came) => Promise<void>) | undefined,
  }
  const answer = smart.behind.answer.bind(smart.behind)
  smart.behind.answer = async (method, path, body = '') => {
    const request = { method, path, body }
    came.push(request)
    const instead = await hooks.before?.(request)
    if (instead) return instead
    const done = await answer(method, path, body)
    await hooks.after?.(request)
    return done
  }
  const tokenEndpoint = `${smart.origin}/token`
  const file = {
    address: smart.address,
    orders: `category=${encodeURIComponent(`${CATEGORY}|lab`)}`,
    backend: { clientId: 'stillhand-tablet', scope: 'system/*.cruds', tokenEndpoint },
    launch: {
      ...{ clientId: 'stillhand-app', scope: 'launch patient/*.cruds', tokenEndpoint },
      authorizationEndpoint: `${smart.origin}/authorize`,
    },
  }
  const app: ServedApp = await serveSite({ 'record-server.json': JSON.stringify(file) })
  return {
    ...{ smart, came, hooks, app },
    /** Transactions that hold that text. */
    transactions: (text: string) =>
      came.filter(({ method, body }) => method === 'POST' && body.includes(text)),
    /** How many of what that search gives hold that text. */
    count: async (query: string, text: string): Promise<number> =>
      (await smart.behind.memory.search(query)).filter((each) =>
        JSON.stringify(each).includes(text),
      ).length,
    async end(): Promise<void> {
      app.end()
      await smart.stop()
    },
  }
}
export type Site = Awaited<ReturnType<typeof siteWithRecordServer>>

export interface Device {
  readonly browser: OpenBrowser
  readonly page: Page
  /** What must not happen; not that the record server was asked, refused or did not answer. */
  readonly faults: () => readonly string[]
}

/** What Chromium says of a server that is away or refuses. */
const SAID = /^console: Failed to load resource: (net::ERR_|the server responded with a status of)/

/** A browser on its first screen that knows how the record server names patients and orders. */
export async function openDevice({ app, smart }: Site): Promise<Device> {
  const browser = await openBrowser({ width: 1180, height: 820, isDeaf: true })
  const all = await watch(browser.context, app.baseUrl)
  const page = browser.context.pages()[0] ?? (await browser.context.newPage())
  await page.goto(app.baseUrl)
  await toSettings(page)
  const section = page.getByRole('group', { name: recordServer.title })
  const { patient, order } = recordServer.fields
  await section.getByLabel(patient.label).fill(MRN)
  await section.getByLabel(recordServer.create.patient).check()
  await section.getByLabel(order.label).fill(ORDERS)
  const loaded = page.waitForEvent('load')
  await section.getByRole('button', { name: recordServer.keep, exact: true }).click()
  await loaded
  const isOwn = (fault: string): boolean =>
    fault.startsWith(`request elsewhere: ${smart.origin}/`) || SAID.test(fault)
  return { browser, page, faults: () => all.filter((fault) => !isOwn(fault)) }
}

async function toSettings(page: Page): Promise<void> {
  await page.locator('.places button').filter({ hasText: screens.home.settings }).first().click()
}

/** From the first screen to the screen of the hand-over. */
export async function toHandOver(page: Page): Promise<void> {
  await toSettings(page)
  await page.getByRole('button', { name: handOver.open, exact: true }).click()
  await page.getByRole('heading', { name: handOver.server }).waitFor()
}

/** A draw of an invented patient, closed a minute ago. */
export const closedDraw = (n: number): DrawLog =>
  logOf(straightLines(openingOf(n)), Date.now() - 440_000)

/** The same with the needle just in. */
export function openDraw(n: number): DrawLog {
  const lines = straightLines(openingOf(n))
  const until = lines.findIndex(([, { type }]) => type === 'needleIn')
  return logOf(lines.slice(0, until + 1), Date.now() - 115_000)
}

function openingOf(n: number): DrawOpened {
  const base = sampleOpening()
  return sampleOpening({
    drawId: `D7-20261125-${String(n).padStart(4, '0')}`,
    patient: { ...base.patient, fullName: `Pat Number${n}`, recordNumber: `MRN-E2E-${n}` },
    order: { ...base.order, orderNumber: `ORD-E2E-${n}` },
  })
}
