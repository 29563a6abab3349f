import { createTurns } from '../../core/basics/turns.ts'
import { createReplica, type Replica } from '../../core/hub/replica.ts'
import type { HubEntry, KeptHubEntry } from '../../core/hub/hubEntry.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import type { Clock } from '../../ports/clock.ts'
import { createBreath } from '../../ports/breath.ts'
import type { Hub } from '../../ports/hub.ts'
import type { HubStore } from '../../ports/hubStore.ts'
import type { Envelopes } from './envelopes.ts'

export interface ReceiverDeps {
  readonly hub: Pick<Hub, 'watch' | 'read'>
  readonly store: HubStore
  readonly envelopes: Envelopes
  readonly sha256: Sha256
  readonly clock: Clock
  /** Logs have changed, or how much is still to come has. */
  readonly onChange: (logs: ReadonlySet<string>) => void
}

/** Follows the clinic's stream and puts it together to logs. */
export interface Receiver {
  /** Reads what is kept, then goes on from there. Never rejects. */
  start(): Promise<void>
  stop(): void
  replica(): Replica
  /** So many messages are known to come; `undefined` before the hub has said. */
  waiting_n(): number | undefined
  /** Nothing of that log stays here, on the disk or in memory. Never rejects. */
  forgetLog(log: string): Promise<void>
  /** Keys or devices are known that were not before: everything is opened again. */
  openAgain(): Promise<void>
}

/** So many are opened side by side. */
const AT_ONCE_n = 64
/** What the hub took longer ago is no longer kept here; orders that are not settled are carried on as long. */
const KEPT_ms = 31 * 86_400_000

export function createReceiver(deps: ReceiverDeps): Receiver {
  const { hub, store, envelopes, sha256 } = deps
  let replica = createReplica(sha256)
  let past = 0
  /** So many are known to come behind those that wait here. */
  let coming_n: number | undefined
  let queue: HubEntry[] = []
  /** Opened and folded, and not yet on the disk. */
  let unkept: KeptHubEntry[] = []
  let isWorking = false
  let isOn = false
  let end: (() => void) | undefined
  /** Logs that were taken off this device; of those that stand with `false` the disk does not know it yet. */
  const erased = new Map<string, boolean>()
  /** Logs that were read once more because a link failed, since the last connection. */
  const readAgain = new Set<string>()

  const inTurn = createTurns()

  /**
   * Opens and folds, in the order in which they stand; answers the logs that changed, those with a broken link, and the
   * places whose signatures are good.
   */
  async function fold(into: Replica, entries: readonly KeptHubEntry[]) {
    const changed = new Set<string>()
    const broken = new Set<string>()
    const verified = new Set<number>()
    const breathe = createBreath(deps.clock)
    const here = entries.filter(({ log }) => !erased.has(log))
    for (let at = 0; at < here.length; at += AT_ONCE_n) {
      const opened = await Promise.all(here.slice(at, at + AT_ONCE_n).map(envelopes.open))
      for (const arrived of opened) {
        if (arrived.refused === undefined) verified.add(arrived.sequence)
        const before_n = into.setAside_n()
        if (into.add(arrived)) changed.add(arrived.log)
        else if (into.setAside_n() > before_n) broken.add(arrived.log)
      }
      await breathe()
    }
    return { changed, broken, verified }
  }

  /** A reader can begin in mid-chain, so a log whose link fails is read once more from its beginning. */
  async function lookAgain(logs: ReadonlySet<string>): Promise<void> {
    for (const log of logs) {
      if (readAgain.has(log)) continue
      readAgain.add(log)
      const entries = await hub.read({ log }, 0).catch(() => [])
      await fold(replica, entries)
    }
  }

  /** What is kept may begin in mid-chain as well, once the beginning was taken by the hub too long ago. */
  const lookForBeginnings = (): Promise<void> =>
    inTurn(async () => {
      const logs = new Set(
        replica.asides().flatMap(({ why, log }) => {
          const isMiddle = why === 'brokenChain' && !replica.log(log)?.entries.length
          return isMiddle && !readAgain.has(log) ? [log] : []
        }),
      )
      if (logs.size === 0) return
      await lookAgain(logs)
      deps.onChange(logs)
    })

  async function work(): Promise<void> {
    if (isWorking) return
    isWorking = true
    while (queue.length > 0 && isOn) {
      const part = queue.slice(0, AT_ONCE_n * 4)
      queue = queue.slice(part.length)
      await inTurn(async () => {
        const { changed, broken, verified } = await fold(replica, part)
        await lookAgain(broken)
        unkept = [...unkept, ...part.map((entry) => asKept(entry, verified))]
        await keep()
        deps.onChange(new Set([...changed, ...broken]))
      })
    }
    isWorking = false
  }

  /** What the disk does not take now goes with the next: nothing may be missing before what was read last. */
  async function keep(): Promise<void> {
    await eraseLeft()
    const rows = unkept.filter(({ log }) => erased.get(log) !== false)
    const kept = await store.add(past, rows).then(
      () => true,
      () => false,
    )
    if (kept) unkept = []
  }

  /** A disk that does not erase now is asked again with the next that is kept. */
  async function eraseLeft(): Promise<void> {
    for (const [log, isDone] of erased) {
      if (isDone) continue
      await store.eraseLog(log).then(
        () => erased.set(log, true),
        () => undefined,
      )
    }
  }

  async function readKept(): Promise<Replica> {
    const fresh = createReplica(sha256)
    const rows = await store.entries()
    let of = rows[0]?.past ?? 0
    let part: KeptHubEntry[] = []
    for (const row of rows) {
      if (row.past !== of) {
        await fold(fresh, part)
        fresh.rewound()
        part = []
        of = row.past
      }
      part.push(row.entry)
    }
    await fold(fresh, part)
    if (past > of) fresh.rewound()
    return fresh
  }

  function watch(position: Parameters<Hub['watch']>[1]): void {
    end = hub.watch({}, position, {
      entry: (entry, more_n) => {
        coming_n = more_n
        queue.push(entry)
        void work()
      },
      caughtUp: () => {
        readAgain.clear()
        coming_n = 0
        deps.onChange(new Set())
        void lookForBeginnings()
      },
      rewound: () => {
        // What came before is of the past that ends here.
        const before = queue
        queue = []
        void inTurn(async () => {
          const { changed, verified } = await fold(replica, before)
          unkept = [...unkept, ...before.map((entry) => asKept(entry, verified))]
          await keep()
          past++
          unkept = []
          replica.rewound()
          await store.beginPast(past).catch(() => undefined)
          deps.onChange(changed)
        })
      },
    })
  }

  return {
    start: async () => {
      if (isOn) return
      isOn = true
      const since_ms = deps.clock.read().wall_ms - KEPT_ms
      await store.eraseBefore(since_ms).catch(() => undefined)
      const notes = await store.notes().catch(() => [])
      for (const { log, isErased } of notes) if (isErased) erased.set(log, true)
      const read = await store.read().catch(() => undefined)
      past = read?.past ?? 0
      const kept = await inTurn(readKept).catch(() => undefined)
      if (kept) replica = kept
      deps.onChange(new Set(replica.logs().map(({ log }) => log)))
      // Without what was kept everything is read anew.
      if (isOn) watch(kept && read ? read.position : { sequence: 0, at_ms: 0 })
    },
    stop: () => {
      isOn = false
      end?.()
      end = undefined
      queue = []
    },
    replica: () => replica,
    waiting_n: () => (coming_n === undefined ? undefined : queue.length + coming_n),
    forgetLog: (log) =>
      inTurn(async () => {
        erased.set(log, false)
        replica.forget(log)
        await eraseLeft()
      }),
    openAgain: () =>
      inTurn(async () => {
        await keep()
        const kept = await readKept().catch(() => undefined)
        if (!kept) return
        // What the disk has not taken is opened behind it.
        await fold(kept, unkept)
        replica = kept
        readAgain.clear()
        deps.onChange(new Set(replica.logs().map(({ log }) => log)))
      }).then(lookForBeginnings),
  }
}

const asKept = (entry: HubEntry, verified: ReadonlySet<number>): KeptHubEntry =>
  verified.has(entry.sequence) ? { ...entry, isVerified: true } : entry
