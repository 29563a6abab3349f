/**
 * How late the clock wakes the draw for a cue, ms: 500 wake-ups in headless Chromium, by the worker's timer that the
 * app uses and by the page's own, with the page idle and with its thread busy half of the time.
 */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium } from 'playwright-core'
import { needChromium } from '../../scripts/findChromium.ts'
import { bundlePage } from '../measure/bundlePage.ts'
import type { CuesPage, WakerKind } from '../measure/cuesPage.ts'
import { pageServer } from '../measure/pageServer.ts'

const COUNT = 500

interface CuesWindow extends Window {
  cuesPage?: CuesPage
}

const folder = mkdtempSync(join(tmpdir(), 'stillhand-cues-'))
await bundlePage(join(import.meta.dirname, '..', 'measure', 'cuesPage.ts'), folder)
const server = await pageServer(folder)
const browser = await chromium.launch({ executablePath: needChromium() })
const page = await browser.newPage()
await page.goto(server.url)
await page.waitForFunction(() => (window as CuesWindow).cuesPage !== undefined)

const results: Record<string, object> = {}
for (const busy of [false, true]) {
  await page.evaluate((on) => (window as CuesWindow).cuesPage?.setBusy(on), busy)
  for (const kind of ['worker', 'page'] satisfies WakerKind[]) {
    const late = await page.evaluate(
      ([which, count]) => (window as CuesWindow).cuesPage?.measure(which, count) ?? [],
      [kind, COUNT] as const,
    )
    results[`${kind}Timer, ${busy ? 'busy' : 'idle'} page`] = summary(late)
  }
}
await browser.close()
await server.close()
rmSync(folder, { recursive: true, force: true })
console.log(JSON.stringify({ cues: COUNT, late_ms: results }, null, 2))

function summary(late: readonly number[]): object {
  const sorted = [...late].sort((a, b) => a - b)
  const at = (share: number): number =>
    Math.round(
      10 * (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN),
    ) / 10
  return { median: at(0.5), p99: at(0.99), worst: at(1) }
}
