import { createLooks } from '../../core/basics/looks.ts'
import type { Hand } from '../../core/hub/replica.ts'
import type { LastAtHub } from '../../core/hub/sendPlan.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import type { Clock } from '../../ports/clock.ts'
import type { Hub } from '../../ports/hub.ts'
import { HubError, type HubFault } from '../../ports/hubFault.ts'
import type { HubStore, LogNote } from '../../ports/hubStore.ts'
import { StorageError } from '../../ports/storageFault.ts'
import type { Turn } from '../../ports/turn.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { Envelopes } from './envelopes.ts'
import type { OwnLogs } from './ownLogs.ts'
import { sendLog } from './sendLog.ts'

/** Own entries that are no part of the record, because another device writes that log. */
export interface OwnAside {
  readonly log: string
  readonly from_seq: number
  readonly writer: string | undefined
  readonly entries: readonly unknown[]
}

export interface SenderDeps {
  readonly hub: Pick<Hub, 'append' | 'last' | 'read' | 'state' | 'onState'>
  readonly store: Pick<HubStore, 'note' | 'notes'>
  readonly own: OwnLogs
  readonly envelopes: Envelopes
  readonly sha256: Sha256
  readonly clock: Clock
  readonly turn: Turn
  /** Who has written a log, as far as it was read. */
  readonly handsOf: (log: string) => readonly Hand[]
  readonly onChange: () => void
}

/** Brings this device's own logs to the hub, always behind what is stored here; nothing ever waits for it. */
export interface Sender {
  start(): Promise<void>
  stop(): void
  /** Something was written: it is looked after now. @param log where it was, which comes first then */
  readonly lookSoon: (log?: string) => void
  /** This device takes a log over: remembered before anything is written behind it. */
  noteTaken(log: string): Promise<void>
  /** Whether that log is stored here, whoever writes it now; `undefined` before that is known. */
  has(log: string): boolean | undefined
  /** Own entries that the hub has not confirmed; `undefined` before they were counted. */
  waiting_n(): number | undefined
  asides(): readonly OwnAside[]
  /** What the hub did not take of a log, other than that it was not there. */
  troubles(): ReadonlyMap<string, HubFault>
}

/** So often it looks by itself: what another page of this device wrote is found then. */
const BEAT_ms = 3000
/** So many logs side by side. */
const AT_ONCE_n = 8

interface Sure {
  readonly entries_n: number
  readonly last?: LastAtHub | undefined
}

export function createSender(deps: SenderDeps): Sender {
  const { hub, own, store, clock, turn } = deps
  const notes = new Map<string, LogNote>()
  /** What was confirmed of each log over the connection that is there now. */
  let sure = new Map<string, Sure>()
  /** Logs that were written since it was looked last. */
  const written = new Set<string>()
  let counts = new Map<string, number>()
  let asides = new Map<string, OwnAside>()
  const troubles = new Map<string, HubFault>()
  let isOn = false
  let isCounted = false
  let cancel: (() => void) | undefined
  let endState: (() => void) | undefined

  const isConnected = (): boolean => hub.state().kind === 'connected'

  function note(log: string, change: Partial<LogNote>): Promise<void> {
    const known = notes.get(log) ?? { log, confirmed: 0, hasTaken: false }
    const next = { ...known, ...change }
    if (next.confirmed === known.confirmed && next.hasTaken === known.hasTaken) return DONE
    notes.set(log, next)
    return store.note(next)
  }

  /** Another page of this device may have taken a log over; while it is the one that sends, it knows how far it is. */
  async function readNotes(): Promise<void> {
    for (const each of await store.notes().catch(() => [])) {
      const mine = turn.isOurs() ? notes.get(each.log) : undefined
      const hasTaken = each.hasTaken || (mine?.hasTaken ?? false)
      notes.set(each.log, { ...each, ...mine, hasTaken })
    }
  }

  async function bring(log: string, of: ReadonlyMap<string, Sure>): Promise<void> {
    const entries = await own.load(log)
    // It was erased meanwhile, and is not to come back from the hub.
    if (entries.length === 0) return
    counts.set(log, entries.length)
    const sent = await sendLog(deps, log, entries, {
      known: of.get(log)?.last,
      hasTaken: notes.get(log)?.hasTaken ?? false,
      hands: deps.handsOf(log),
      takeNote: { type: 'writer', at_ms: clock.read().wall_ms },
      onConfirmed: (confirmed) => {
        void note(log, { confirmed }).catch(() => undefined)
        deps.onChange()
      },
    })
    troubles.delete(log)
    const aside =
      sent.kind === 'aside'
        ? { log, ...sent, entries: entries.slice(sent.from_seq - 1) }
        : undefined
    asides = new Map([...asides].filter(([each]) => each !== log))
    if (aside) asides.set(log, aside)
    if (sent.kind === 'fetch') await own.add(log, sent.entries)
    // Of a connection that has broken since, nothing is sure.
    else if (sent.kind !== 'wait' && of === sure) {
      sure.set(log, {
        entries_n: entries.length,
        last: sent.kind === 'done' ? sent.last : undefined,
      })
    }
  }

  /** Answers whether others can be brought behind it. */
  async function tryBringing(log: string, of: ReadonlyMap<string, Sure>): Promise<boolean> {
    try {
      await bring(log, of)
    } catch (error) {
      // A disk that fails is told by whoever writes to it.
      if (error instanceof StorageError) return true
      const fault = error instanceof HubError ? error.fault : 'unknown'
      if (fault === 'unreachable' || fault === 'stopped') return false
      troubles.set(log, fault)
    }
    return true
  }

  /** What was written just now of a draw that is being sent: nobody waits until all others were counted. */
  async function bringWritten(): Promise<void> {
    const logs = [...written]
    written.clear()
    for (const log of logs) {
      // Whether a log is to be sent at all is told by going through all of them.
      if (!isConnected() || !turn.isOurs() || !sure.has(log)) continue
      if (!(await tryBringing(log, sure))) return
    }
  }

  async function look(): Promise<void> {
    await bringWritten()
    const ends = await own.ends()
    // A log that was not read yet has something in it.
    counts = new Map(ends.map(({ log, entries }) => [log, entries ?? counts.get(log) ?? 1]))
    await readNotes()
    isCounted = true
    deps.onChange()
    if (!isConnected() || !turn.isOurs()) return
    const of = sure
    const open = ends.filter(
      ({ log, entries }) => entries === undefined || of.get(log)?.entries_n !== entries,
    )
    const next = open.map(({ log }) => log)
    const worker = async (): Promise<void> => {
      for (let log = next.shift(); log !== undefined && isOn && isConnected(); log = next.shift()) {
        if (!(await tryBringing(log, of))) return
      }
    }
    await Promise.all(Array.from({ length: AT_ONCE_n }, worker))
    deps.onChange()
  }

  // A disk that does not answer is told by whoever writes to it; here the next look must do.
  const looks = createLooks(look, () => isOn)
  const lookSoon = (log?: string): void => {
    if (log !== undefined) written.add(log)
    looks()
  }

  function beat(): void {
    lookSoon()
    cancel = wakeIn(clock, BEAT_ms, beat)
  }

  return {
    start: async () => {
      if (isOn) return
      isOn = true
      await readNotes()
      turn.ask(() => {
        sure = new Map()
        lookSoon()
      })
      endState = hub.onState(({ kind }) => {
        if (kind !== 'connected') return
        // It may have come back without what it took: everything is gone through again.
        sure = new Map()
        lookSoon()
      })
      beat()
    },
    stop: () => {
      isOn = false
      endState?.()
      cancel?.()
    },
    lookSoon,
    noteTaken: async (log) => {
      sure.delete(log)
      await note(log, { hasTaken: true })
    },
    has: (log) => (isCounted ? counts.has(log) : undefined),
    waiting_n: () => {
      if (!isCounted) return undefined
      let sum = 0
      for (const [log, entries] of counts) {
        const none = asides.get(log)
        const confirmed = Math.max(notes.get(log)?.confirmed ?? 0, sure.get(log)?.entries_n ?? 0)
        const ours = none ? none.from_seq - 1 : entries
        sum += Math.max(0, ours - confirmed)
      }
      return sum
    },
    asides: () => [...asides.values()],
    troubles: () => troubles,
  }
}

const DONE = Promise.resolve()
