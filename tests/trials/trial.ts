/**
 * `npm run trial -- [--size 1180x820]`: two novices in Chromium, who read what is in sight and press what bears the
 * words: the first real draw by hand, and a draw with slow blood, a faint and a second attempt. Prints what it cost
 * them; where the next thing to do was not on the screen it says so and ends with 1. The app must be built.
 */
import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { staticServer } from '../../scripts/build/staticServer.ts'
import { errorText } from '../../src/core/basics/errorText.ts'
import { openBrowser } from '../support/e2eBrowser.ts'
import { firstDraw } from './firstDraw.ts'
import { createNovice, type Effort } from './novice.ts'
import { troubledDraw } from './troubledDraw.ts'

const { values } = parseArgs({ options: { size: { type: 'string', default: '1180x820' } } })
const [width = 1180, height = 820] = values.size.split('x').map(Number)
const TRIALS = { 'first real draw, by hand, seven tests': firstDraw, 'slow blood, faint, second attempt': troubledDraw } // prettier-ignore

const server = staticServer(join(import.meta.dirname, '..', '..', 'dist'))
await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
const { port } = server.address() as AddressInfo
const rows: string[][] = []
for (const [name, trial] of Object.entries(TRIALS)) {
  // A device that knows nobody.
  const browser = await openBrowser({ width, height })
  const { context } = browser
  // The runner names functions by a helper that the page does not have.
  await context.addInitScript('globalThis.__name = (named) => named')
  const page = context.pages()[0] ?? (await context.newPage())
  await page.goto(`http://localhost:${port}/`)
  await page.locator('h1').first().waitFor()
  const novice = createNovice(page)
  const began_ms = Date.now()
  let stopped: string | undefined
  try {
    await trial(page, novice)
  } catch (error) {
    stopped = errorText(error)
    process.exitCode = 1
  }
  rows.push(rowOf(name, novice.effort, Date.now() - began_ms))
  for (const line of novice.effort.hesitations) console.log(`${name}: ${line}`)
  if (stopped !== undefined) console.log(`${name}: STOPPED. ${stopped}`)
  await browser.close()
}
server.close()
const head = ['trial', 'clicks', 'keystrokes', 'machine time', 'way of the hand', 'scrolled', 'main choice moved', 'hesitations'] // prettier-ignore
for (const cells of [head, head.map(() => '---'), ...rows]) console.log(`| ${cells.join(' | ')} |`)

function rowOf(name: string, effort: Effort, took_ms: number): string[] {
  const { clicks, keystrokes, travel_px, scrolls, mainMoves, hesitations } = effort
  return [name, clicks, keystrokes, `${Math.round(took_ms / 1000)} s`, `${Math.round(travel_px).toLocaleString('en-US')} px`, scrolls, mainMoves, hesitations.length].map(String) // prettier-ignore
}
