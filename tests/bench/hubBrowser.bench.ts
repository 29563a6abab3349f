/**
 * The clinic's hub from real pages: headless Chromium on the built app under its policy, over the WebSocket with
 * certificates and passes, to a nats-server with `sync_interval: always`, all on this machine. Entries a second from a
 * page to the hub, and the same bytes from Node without the app; from a key pressed at a chair until the bench knows of
 * it, with few draws and with many; and a new device that catches up with 2,000 draws, then the same device at its next
 * start. Nobody speaks, and the engine of these pages hears nothing.
 */
import { loadavg } from 'node:os'
import type { Page } from 'playwright-core'
import type { Hub } from '../../src/ports/hub.ts'
import { drawLogName } from '../../src/core/hub/logNames.ts'
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import { closedHub } from '../support/closedHub.ts'
import { openTablet, serveWithHub, type Tablet } from '../support/e2eClinic.ts'
import { goThrough } from '../support/e2eDraw.ts'
import { byKeys } from '../support/e2eHubDay.ts'
import { readLog } from '../support/e2eLog.ts'
import { planByHand } from '../support/e2eOrder.ts'
import { layDraws } from '../support/e2eStore.ts'
import { heapOf_MB, hears, untilAllThere, whenHeard } from '../support/hubInPage.ts'
import { connected, placeOf } from '../support/hubRig.ts'
import { NATS_SERVER } from '../support/natsProcess.ts'
import { nodeDesk } from '../support/nodeDesk.ts'
import { logOf, sampleOpening, straightLines } from '../support/sampleLog.ts'

if (!NATS_SERVER) {
  console.log(JSON.stringify({ left: 'no nats-server on this machine' }))
  process.exit(0)
}
const CATCH_UP_draws = 2000
/** A clinic of 20 chairs makes them in four days (hub/SCALE.md). */
const DAYS = 4
const SENT_draws = 20
const FAN_OUT_draws = 3
/** So many logs a page sends side by side. */
const AT_ONCE_n = 8
const DAY_ms = 86_400_000
const HOUR_ms = 3_600_000

const round = (value: number, digits = 1): number => Number(value.toFixed(digits))
const quantile = (all: readonly number[], q: number): number =>
  [...all].sort((a, b) => a - b)[Math.min(all.length - 1, Math.floor(q * all.length))] ?? NaN
const load = (): number => round(loadavg()[0] ?? NaN)
const loads: Record<string, number> = { before: load() }
const said = (what: string): void => void process.stderr.write(`${what} (load ${load()}) ... `)

/** Closed draws with whole chains. */
function draws(prefix: string, n: number, start_ms: (i: number) => number): readonly DrawLog[] {
  return Array.from({ length: n }, (_, i) => {
    const drawId = `${prefix}-20260101-${String(i + 1).padStart(4, '0')}`
    return logOf(straightLines(sampleOpening({ drawId })), start_ms(i))
  })
}

// What nobody measures is not waited for.
let isStrict = true
const hub = await closedHub((conf) =>
  isStrict ? conf : conf.replace('sync_interval: always', 'sync_interval: "2m"'),
)
const desk = await nodeDesk(hub)
const reader = await connected(hub.hub('R', await hub.pass('reader', 'R')))
const app = await serveWithHub(hub)
const tablets: Tablet[] = []
const open = async (name: string): Promise<Tablet> => {
  const tablet = await openTablet(name, app, hub, { isDeaf: true })
  tablets.push(tablet)
  return tablet
}

/** Entries a second by the hub's own clock, of logs that a page of this device brings there. */
async function fromPage({
  page,
}: Tablet): Promise<{ readonly perSecond: number; bytes: Uint8Array }> {
  await page.goto(`${app.baseUrl}/manifest.webmanifest`)
  const logs = draws('SS22', SENT_draws, (i) => Date.now() - HOUR_ms + i * 1000)
  await layDraws(page, logs)
  await page.goto(app.baseUrl)
  await untilAllThere(page)
  const all = await Promise.all(
    logs.map(({ drawId }) => reader.read({ log: drawLogName(drawId) }, 0)),
  )
  const entries = all.flat()
  const wanted_n = logs.reduce((sum, log) => sum + log.entries.length, 0)
  if (entries.length !== wanted_n) throw new Error(`${entries.length} entries of ${wanted_n}`)
  const at_ms = entries.map((entry) => entry.at_ms)
  const took_s = (Math.max(...at_ms) - Math.min(...at_ms)) / 1000
  return { perSecond: entries.length / took_s, bytes: entries[0]?.bytes ?? new Uint8Array() }
}

/** The same bytes as often and as many at once, without app and page. */
async function fromNode(of: Hub, bytes: Uint8Array, n: number): Promise<number> {
  const since_ms = performance.now()
  const one = async (lane: number): Promise<void> => {
    for (let i = 0, behind = 0; i < n; i++)
      behind = placeOf(await of.append(`bare-${lane}`, 'entry', bytes, behind))
  }
  await Promise.all(Array.from({ length: AT_ONCE_n }, (_, lane) => one(lane)))
  return (AT_ONCE_n * n * 1000) / (performance.now() - since_ms)
}

/** From when an entry is charted at the chair until the bench's screens can show it, ms. */
async function fanOut(chair: Page, bench: Page, tag: string): Promise<readonly number[]> {
  const all: number[] = []
  for (let i = 0; i < FAN_OUT_draws; i++) {
    await chair.goto(app.baseUrl)
    await untilAllThere(chair)
    await planByHand(chair, {
      fullName: `Fan ${tag}${'abc'[i] ?? ''}`,
      birthDate: `19${60 + i}-02-03`,
      recordNumber: `BENCH-${tag}-${i}`,
      tests: ['ntProBnp'],
    })
    await hears(bench)
    await chair.getByRole('button', { name: 'Start the draw' }).click()
    await chair.locator('.draw #step-instruction').waitFor()
    await goThrough(chair, { patient: false, confirm: byKeys(chair) })
    await untilAllThere(chair)
    const log = await readLog(chair)
    const heard_ms = await whenHeard(bench, log)
    all.push(...log.map(({ at }, n) => (heard_ms[n] ?? NaN) - at.wall_ms))
  }
  return all
}
const shown = (all: readonly number[]) => ({
  entries: all.length,
  median: round(quantile(all, 0.5)),
  percentile95: round(quantile(all, 0.95)),
  longest: round(Math.max(...all)),
})

said('joining')
const [chair, bench] = [await open('Chair 1'), await open('Bench')]
for (const tablet of tablets) await desk.letIn(tablet)

said('entries a second')
const page = await fromPage(chair)
const node = await fromNode(desk.hub, page.bytes, 120)

said('fan-out')
await bench.page.goto(app.baseUrl)
await untilAllThere(bench.page)
const few = await fanOut(chair.page, bench.page, 'Few')
for (const { page } of tablets) await page.goto('about:blank')

said('2,000 draws')
isStrict = false
await hub.server.kill()
await hub.server.start()
await connected(desk.hub)
const now_ms = Date.now()
const many = draws(
  'MM33',
  CATCH_UP_draws,
  (i) => now_ms - HOUR_ms - (i / CATCH_UP_draws) * DAYS * DAY_ms,
)
for (let from = 0; from < many.length; from += 64) {
  await Promise.all(
    many.slice(from, from + 64).map(async ({ drawId, entries }) => {
      const log = drawLogName(drawId)
      let behind = 0
      for (const entry of entries) {
        const bytes = await desk.envelopes.close('entry', log, entry, entry)
        behind = placeOf(await desk.hub.append(log, 'entry', bytes, behind))
      }
    }),
  )
}
isStrict = true
await hub.server.kill()
await hub.server.start()
await Promise.all([connected(desk.hub), connected(reader)])

said('catching up')
const entries_n = (await reader.read({}, 0)).length
const fresh = await open('New')
const alone_MB = await heapOf_MB(fresh.page)
await desk.letIn(fresh)
const first = await untilAllThere(fresh.page, CATCH_UP_draws)
const memory_MB = await heapOf_MB(fresh.page)
loads.atCatchUp = load()
await fresh.page.goto(app.baseUrl)
const again = await untilAllThere(fresh.page, CATCH_UP_draws)

said('fan-out with 2,000 draws')
for (const { page } of [chair, bench]) {
  await page.goto(app.baseUrl)
  await untilAllThere(page, CATCH_UP_draws)
}
const full = await fanOut(chair.page, bench.page, 'Many')
loads.after = load()

for (const tablet of tablets) {
  await tablet.browser.close()
  await tablet.line.end()
}
await Promise.all([reader.stop(), desk.end()])
app.end()
await hub.server.remove()
process.stderr.write('\n')
console.log(
  JSON.stringify({
    server: NATS_SERVER.version,
    load1min: loads,
    entrySize_B: page.bytes.length,
    entriesPerSecond: {
      fromPage: round(page.perSecond),
      fromNode: round(node),
      pageToNode: round(page.perSecond / node, 2),
    },
    chairToBench_ms: {
      fewDraws: shown(few),
      manyDraws: shown(full),
      manyToFew: round(quantile(full, 0.5) / quantile(few, 0.5), 2),
    },
    catchUp: {
      ...{ draws: CATCH_UP_draws, entries: entries_n },
      s: round(first.ms / 1000),
      entriesPerSecond: Math.round((entries_n * 1000) / first.ms),
      longestTask_ms: Math.round(first.longestTask_ms),
      nextStart_s: round(again.ms / 1000),
      nextStartLongestTask_ms: Math.round(again.longestTask_ms),
      nextStartToFirst: round(again.ms / first.ms, 2),
      memory_MB: { alone: round(alone_MB), with: round(memory_MB) },
    },
  }),
)
