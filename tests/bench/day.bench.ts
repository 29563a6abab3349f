/**
 * Opening a day on a device with 2,000 stored draws, of which those of today have 400 specimens on the bench, in
 * headless Chromium on the built app: time to the first screen and to the bench, what one look at the clock costs the
 * page while the board is shown, and what a year of logs takes. The ratio is to the same device with one draw.
 */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium, type Page } from 'playwright-core'
import { staticServer } from '../../scripts/build/staticServer.ts'
import { needChromium } from '../../scripts/findChromium.ts'
import { putDraws } from '../faults/database.ts'
import { logOf, sampleOpening, straightLines } from '../support/sampleLog.ts'

const STORED_n = 2000
const SPECIMENS_n = 400
const TUBES_n = 3
const TODAY_n = Math.ceil(SPECIMENS_n / TUBES_n)
const LOOKS = 7
const HOUR_ms = 3_600_000
/** So many draws a day, on so many days: a busy practice, for what a year takes. */
const YEAR = { draws_n: 40, days_n: 250 }

const root = join(import.meta.dirname, '..', '..')
const dist = mkdtempSync(join(tmpdir(), 'stillhand-bench-'))
const built = spawnSync(
  join(root, 'node_modules', '.bin', 'vite'),
  ['build', '--logLevel', 'error', '--outDir', dist, '--emptyOutDir'],
  { cwd: root, encoding: 'utf8' },
)
if (built.status !== 0) throw new Error(built.stderr)
const server = staticServer(dist)
await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
const address = server.address()
const port = typeof address === 'object' && address ? address.port : 0
const browser = await chromium.launch({ executablePath: needChromium() })

/** Closed draws with whole chains, an hour and more ago; their numbers stand before those of any device. */
function logs(day: string, from: number, n: number, start_ms: number) {
  return Array.from({ length: n }, (_, i) => {
    const drawId = `00-${day}-${String(from + i + 1).padStart(4, '0')}`
    return logOf(straightLines(sampleOpening({ drawId })), start_ms + i * 1000)
  })
}

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN
const round = (value: number): number => Math.round(value * 10) / 10

/** From the beginning of the load to the first screen, and from the press to the board; medians, ms. */
async function opened(page: Page) {
  const home: number[] = []
  const board: number[] = []
  for (let look = 0; look < LOOKS; look++) {
    await page.goto(`http://localhost:${port}/`, { waitUntil: 'commit' })
    await page.locator('h1').first().waitFor()
    home.push(await page.evaluate(() => performance.now()))
    await page.waitForTimeout(1500)
    const since_ms = Date.now()
    await page
      .getByRole('button', { name: /^Bench/ })
      .first()
      .click()
    await page.getByRole('heading', { level: 1, name: /bench/i }).waitFor()
    board.push(Date.now() - since_ms)
  }
  return { firstScreen_ms: round(median(home)), board_ms: round(median(board)) }
}

/** Reads what the page has worked so far, ms. */
async function workOf(page: Page): Promise<() => Promise<number>> {
  const session = await page.context().newCDPSession(page)
  await session.send('Performance.enable')
  return async () => {
    const { metrics } = await session.send('Performance.getMetrics')
    return 1000 * (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? NaN)
  }
}

/** What the page works for each second while the board stands, ms: every look at the clock and what it redraws. */
async function workOfBoard_ms(page: Page): Promise<number> {
  const work_ms = await workOf(page)
  const SECONDS = 20
  const before_ms = await work_ms()
  await page.waitForTimeout(SECONDS * 1000)
  return round(((await work_ms()) - before_ms) / SECONDS)
}

/** The most that the page worked within a quarter of a second while the board stood and its minute changed, ms. */
async function redrawOfBoard_ms(page: Page): Promise<number> {
  const work_ms = await workOf(page)
  const until_ms = Math.ceil((Date.now() + 3000) / 60_000) * 60_000 + 3000
  await page.waitForTimeout(until_ms - 6000 - Date.now())
  let most_ms = 0
  let last_ms = await work_ms()
  while (Date.now() < until_ms) {
    await page.waitForTimeout(250)
    const now_ms = await work_ms()
    most_ms = Math.max(most_ms, now_ms - last_ms)
    last_ms = now_ms
  }
  return round(most_ms)
}

async function freshPage(): Promise<Page> {
  const page = await (await browser.newContext()).newPage()
  await page.goto(`http://localhost:${port}/`)
  await page.locator('h1').first().waitFor()
  return page
}

const today = new Date().toISOString().slice(0, 10).replaceAll('-', '')
const one = await freshPage()
await putDraws(one, logs(today, 0, 1, Date.now() - HOUR_ms))
const few = await opened(one)
await one.context().close()

const page = await freshPage()
for (let from = 0; from < STORED_n - TODAY_n; from += 200) {
  const n = Math.min(200, STORED_n - TODAY_n - from)
  await putDraws(page, logs('20260101', from, n, Date.UTC(2026, 0, 1, 8)))
}
await putDraws(page, logs(today, 0, TODAY_n, Date.now() - HOUR_ms))
const many = await opened(page)
const boardWork_ms = await workOfBoard_ms(page)
const redraw_ms = await redrawOfBoard_ms(page)
const rows = await page.locator('.benchGroup li, .benchRow').count()
await browser.close()
server.closeAllConnections()
server.close()
rmSync(dist, { recursive: true, force: true })

const log_kB = JSON.stringify(logs(today, 0, 1, Date.now())[0]).length / 1000
console.log(
  JSON.stringify({
    stored: STORED_n,
    specimensOnBench: TODAY_n * TUBES_n,
    rowsShown: rows,
    ...many,
    boardWork_msPerSecond: boardWork_ms,
    boardRedraw_ms: redraw_ms,
    oneDraw: few,
    firstScreenToOneDraw: round(many.firstScreen_ms / few.firstScreen_ms),
    year: {
      ...YEAR,
      log_kB: round(log_kB),
      all_MB: round((log_kB * YEAR.draws_n * YEAR.days_n) / 1000),
    },
  }),
)
