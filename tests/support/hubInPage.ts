import type { Page } from 'playwright-core'
import type { AppState } from '../../src/app/appApi.ts'
import type { LogEntry } from '../../src/core/protocol/entry.ts'

/** Looks into the app behind a page without carrying what it holds out of the page. */

interface Told extends Window {
  stillhandApp?: { getState(): AppState; subscribe(observer: () => void): () => void }
  stillhandTasks_ms?: number[]
  /** When so many entries of a draw were first known, by draw; ms since 1970 UTC. */
  stillhandHeard?: Map<string, number[]>
  stillhandEnd?: (() => void) | undefined
}

/** Waits for the app on the page and keeps its store at hand. */
async function findApp(page: Page): Promise<void> {
  await page.locator('h1').first().waitFor({ timeout: 600_000 })
  // Where a command runs this file, its functions are given their names by a helper that no page has.
  await page.evaluate('globalThis.__name ??= (each) => each')
  await page.evaluate(() => {
    interface Fiber {
      readonly memoizedProps?: { readonly port?: { readonly store: Told['stillhandApp'] } } | null
      readonly child?: Fiber | null
    }
    const root = document.getElementById('root') as unknown as Readonly<Record<string, unknown>>
    const key = Object.keys(root).find((each) => each.startsWith('__reactContainer$')) ?? ''
    const container = root[key] as { readonly stateNode: { readonly current: Fiber } }
    let fiber: Fiber | null | undefined = container.stateNode.current
    while (fiber && !fiber.memoizedProps?.port) fiber = fiber.child
    const store = fiber?.memoizedProps?.port?.store
    if (!store) throw new Error('The app is not on the page.')
    ;(window as Told).stillhandApp = store
  })
}

export interface CaughtUp {
  /** Since the page began to load. */
  readonly ms: number
  /** The longest that nothing else could happen on the page. */
  readonly longestTask_ms: number
}

/** Waits until the page has all that is at the hub, and the hub all of it. @param others_n draws of other devices, at least */
export async function untilAllThere(page: Page, others_n = 0): Promise<CaughtUp> {
  await findApp(page)
  return page.evaluate(
    (wanted_n) =>
      new Promise<CaughtUp>((resolve) => {
        let longestTask_ms = 0
        const observer = new PerformanceObserver((list) => {
          for (const { duration } of list.getEntries())
            longestTask_ms = Math.max(longestTask_ms, duration)
        })
        observer.observe({ type: 'longtask', buffered: true })
        const look = (): void => {
          const { clinic, others } = (window as Told).stillhandApp?.getState() ?? {}
          const isThere =
            clinic?.link === 'connected' &&
            clinic.coming_n + clinic.waiting_n === 0 &&
            (others?.length ?? 0) >= wanted_n
          if (!isThere) return void setTimeout(look, 20)
          const ms = performance.now()
          // What was shown last belongs to it.
          setTimeout(() => {
            observer.disconnect()
            resolve({ ms, longestTask_ms })
          }, 500)
        }
        look()
      }),
    others_n,
  )
}

/** Writes down from now on when the page knows of entries of other devices. */
export async function hears(page: Page): Promise<void> {
  await findApp(page)
  await page.evaluate(() => {
    const told = window as Told
    told.stillhandEnd?.()
    const heard = (told.stillhandHeard = new Map<string, number[]>())
    told.stillhandEnd = told.stillhandApp?.subscribe(() => {
      for (const { drawId, entries } of told.stillhandApp?.getState().others ?? []) {
        const known = heard.get(drawId) ?? []
        heard.set(drawId, known)
        while (known.length < (entries ?? 0)) known.push(Date.now())
      }
    })
  })
}

/** When the page knew of each entry of a log, ms since 1970 UTC; waits for the last of them. */
export async function whenHeard(page: Page, log: readonly LogEntry[]): Promise<readonly number[]> {
  const opening = log[0]?.event
  const drawId = opening?.type === 'drawOpened' ? opening.drawId : ''
  const of = { drawId, n: log.length }
  await page.waitForFunction(
    ({ drawId, n }) => ((window as Told).stillhandHeard?.get(drawId)?.length ?? 0) >= n,
    of,
    { timeout: 60_000 },
  )
  return page.evaluate((id) => (window as Told).stillhandHeard?.get(id) ?? [], drawId)
}

/** What the page's scripts hold after the garbage was collected, MB. */
export async function heapOf_MB(page: Page): Promise<number> {
  const session = await page.context().newCDPSession(page)
  await session.send('HeapProfiler.enable')
  await session.send('HeapProfiler.collectGarbage')
  const { usedSize } = await session.send('Runtime.getHeapUsage')
  await session.detach()
  return usedSize / 1e6
}
