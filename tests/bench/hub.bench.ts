/**
 * The clinic's hub through the app's adapter, over the loopback, one node with `sync_interval: always`: entries a
 * second within one log (each needs the answer of the one before) and in 16 logs at once, from one device to another,
 * and a new device that catches up with 2,000 draws.
 */
import type { Hub } from '../../src/ports/hub.ts'
import { HUB_START } from '../../src/core/hub/hubEntry.ts'
import { connected, placeOf } from '../support/hubRig.ts'
import { NATS_SERVER, natsProcess } from '../support/natsProcess.ts'
import { natsHub, plainServer, setUp } from '../support/natsRig.ts'

if (!NATS_SERVER) {
  console.log(JSON.stringify({ left: 'no nats-server on this machine' }))
  process.exit(0)
}
const DRAWS_n = 2000
/** Entries of a draw: 37 to 60, by the logs of the practice scripts. */
const ENTRIES_n = 45
const SIZE = 300
const LANES = 64
const PATIENCE_ms = 20_000

const bytes = new Uint8Array(SIZE).fill(65)
const median = (all: readonly number[]): number =>
  [...all].sort((a, b) => a - b)[all.length >> 1] ?? NaN
const tenths = (value: number): number => Math.round(value * 10) / 10

async function write(hub: Hub, log: string, n: number): Promise<void> {
  let behind = 0
  for (let i = 0; i < n; i++) behind = placeOf(await hub.append(log, 'entry', bytes, behind))
}

async function perSecond(hub: Hub, logs: number, entries: number, tag: string): Promise<number> {
  const since_ms = performance.now()
  await Promise.all(Array.from({ length: logs }, (_, i) => write(hub, `${tag}-${i}`, entries)))
  return Math.round((logs * entries * 1000) / (performance.now() - since_ms))
}

// Filled without waiting for the disk, then started anew as a clinic runs it.
let sync = '2m'
const server = await natsProcess((port, store) =>
  plainServer(port, store).replace(
    'sync_interval: always',
    `sync_interval: ${sync === '2m' ? '"2m"' : sync}`,
  ),
)
await server.start()
await setUp(server.port, 1)
const a = await connected(natsHub('A1', server.port, PATIENCE_ms))
for (let from = 0; from < DRAWS_n; from += LANES) {
  const n = Math.min(LANES, DRAWS_n - from)
  await Promise.all(Array.from({ length: n }, (_, i) => write(a, `draw-${from + i}`, ENTRIES_n)))
}
await a.stop()
sync = 'always'
await server.kill()
await server.start()
await connected(a)
const b = await connected(natsHub('B2', server.port, PATIENCE_ms))

const since_ms = performance.now()
const read_n = (await b.read({}, 0)).length
const read_ms = performance.now() - since_ms
const watched_ms = await new Promise<number>((resolve) => {
  const start_ms = performance.now()
  const stop = b.watch({}, HUB_START, {
    entry: () => undefined,
    caughtUp: () => {
      resolve(performance.now() - start_ms)
      setImmediate(() => stop())
    },
  })
})

const oneLog = await perSecond(a, 1, 300, 'one')
const sixteenLogs = await perSecond(a, 16, 60, 'sixteen')

const last = (await b.read({}, 0)).at(-1)
const delays: number[] = []
let heard: (() => void) | undefined
const stop = b.watch({}, last ?? HUB_START, { entry: () => heard?.(), caughtUp: () => heard?.() })
await new Promise<void>((resolve) => (heard = resolve))
for (let i = 0, behind = 0; i < 200; i++) {
  const sent_ms = performance.now()
  const arrived = new Promise<void>((resolve) => (heard = resolve))
  behind = placeOf(await a.append('fan-out', 'entry', bytes, behind))
  await arrived
  delays.push(performance.now() - sent_ms)
}
stop()
await Promise.all([a.stop(), b.stop()])
await server.remove()
console.log(
  JSON.stringify({
    server: NATS_SERVER.version,
    entrySize_B: SIZE,
    entriesPerSecond: { oneLog, sixteenLogs },
    chairToBench_ms: { median: tenths(median(delays)), longest: tenths(Math.max(...delays)) },
    catchUp: {
      draws: DRAWS_n,
      entries: read_n,
      read_ms: Math.round(read_ms),
      watched_ms: Math.round(watched_ms),
    },
  }),
)
