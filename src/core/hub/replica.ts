import { defined } from '../basics/defined.ts'
import { isRecord } from '../basics/isRecord.ts'
import { hashOf, NO_PREVIOUS, type Sha256 } from '../log/seal.ts'
import type { HubEntryKind } from './hubEntry.ts'
import { readLogName } from './logNames.ts'

/** Why something that stands at the hub is no part of a record. */
export const ASIDE_REASONS = [
  /** The bytes are no envelope, or one of another place than it stands in. */
  'unreadable',
  /** Written by a newer version of the app. */
  'newer',
  /** Nobody let this device into the clinic. */
  'unknownDevice',
  /** It was cut off when the hub took this. */
  'revoked',
  /** The signature is not the device's. */
  'badSignature',
  /** Sealed under a key that this device does not have, or not yet. */
  'unknownKey',
  /** What was sealed does not open. */
  'damaged',
  /** Another device writes that log. */
  'otherWriter',
  /** It does not follow the entry before it. */
  'brokenChain',
  /** A log of a device's own day that another device wrote. */
  'otherDay',
] as const
export type AsideReason = (typeof ASIDE_REASONS)[number]

/** A message of the hub, its envelope read and its signature looked at. */
export interface Arrived {
  readonly sequence: number
  /** When the hub took it. */
  readonly at_ms: number
  readonly device: string
  readonly kind: HubEntryKind
  readonly log: string
  readonly seq: number
  readonly hash: string
  /** What was sealed: the entry, or what the new writer says. */
  readonly content?: unknown
  /** It does not count. */
  readonly refused?: AsideReason
}

/** From where on a device writes a log. */
export interface Hand {
  readonly device: string
  /** The number of the first entry that is its own. */
  readonly from_seq: number
  readonly at_ms: number
}

/** A log as the hub's messages tell it. */
export interface ReplicaLog {
  readonly log: string
  /** Every entry is closed onto the one before it; shapes are checked by whoever reads it. */
  readonly entries: readonly ReplicaEntry[]
  /**
   * Who has written it, one after another; the last one does now. A hand-over that a hub lost with its disk stands
   * for as long as nothing else is known.
   */
  readonly hands: readonly Hand[]
  /** So many entries stand at the hub; more are held where it lost some. */
  readonly sure: number
  /** Sequence of the last message of this log, whether it counts or not; 0 where the hub has none. */
  readonly sequence: number
  /** When the hub took its last entry. */
  readonly at_ms: number
}

export interface ReplicaEntry {
  readonly seq: number
  readonly hash: string
  readonly raw: unknown
}

/** What stands at the hub and is no part of a record, kept for a person to look at. */
export interface Aside {
  readonly sequence: number
  readonly at_ms: number
  readonly device: string
  readonly log: string
  readonly seq: number
  readonly why: AsideReason
  readonly content?: unknown
}

export interface Replica {
  /** Takes the next message of the stream; answers whether a log changed. */
  add(arrived: Arrived): boolean
  /** The hub came back from an old copy and everything comes once more: what is held may be missing there now. */
  rewound(): void
  /** Nothing is held of that log any more. */
  forget(name: string): void
  log(name: string): ReplicaLog | undefined
  logs(): readonly ReplicaLog[]
  /** The last ones; `setAside_n` counts them all. */
  asides(): readonly Aside[]
  setAside_n(): number
}

/** The device that writes a log now. */
export const writerOf = ({ hands }: Pick<ReplicaLog, 'hands'>): string | undefined =>
  hands.at(-1)?.device

/** So many are kept to be looked at, so that a device that runs wild fills nobody's memory. */
const ASIDES_MAX = 500

interface Building {
  readonly log: string
  entries: ReplicaEntry[]
  hands: Hand[]
  /** Of a past that the hub has lost. */
  held: readonly Hand[]
  sure: number
  sequence: number
  at_ms: number
}

/**
 * Puts the messages of the clinic's stream together to logs, in the order of the stream. One device writes a log at a
 * time; what others send into it is set aside with the reason and changes nothing.
 */
export function createReplica(sha256: Sha256): Replica {
  const logs = new Map<string, Building>()
  const asides = new Map<string, Aside>()
  let forgotten_n = 0

  function setAside(aside: Aside): void {
    asides.set(keyOf(aside), aside)
    if (asides.size <= ASIDES_MAX) return
    const [oldest = ''] = asides.keys()
    asides.delete(oldest)
    forgotten_n++
  }

  function add(arrived: Arrived): boolean {
    const found = logs.get(arrived.log) ?? begun(arrived.log)
    found.sequence = arrived.sequence
    logs.set(arrived.log, found)
    const why = arrived.refused ?? whyNot(found, arrived, sha256)
    if (why === undefined) {
      // It may have come before what it follows.
      asides.delete(keyOf(arrived))
      return arrived.kind === 'writer' ? take(found, arrived) : grow(found, arrived)
    }
    const { sequence, at_ms, device, log, seq, content } = arrived
    setAside(defined({ sequence, at_ms, device, log, seq, why, content }))
    return false
  }

  function grow(
    found: Building,
    { device, seq, hash, content, at_ms, sequence }: Arrived,
  ): boolean {
    found.sure = Math.max(found.sure, seq)
    if (found.hands.length === 0) found.hands = [{ device, from_seq: 1, at_ms }]
    found.at_ms = at_ms
    if (found.entries[seq - 1]?.hash === hash) return true
    // What stands at the hub counts: what was held from before it lost something goes aside where the two differ.
    for (const lost of found.entries.slice(seq - 1)) {
      const of = { sequence, at_ms, device, log: found.log, why: 'brokenChain' as const }
      setAside({ ...of, seq: lost.seq, content: lost.raw })
    }
    found.entries.length = seq - 1
    found.entries.push({ seq, hash, raw: content })
    return true
  }

  return {
    add,
    rewound: () => {
      for (const found of logs.values()) {
        found.held = handsOf(found)
        found.hands = []
        found.sure = 0
        found.sequence = 0
      }
    },
    forget: (name) => void logs.delete(name),
    log: (name) => {
      const found = logs.get(name)
      return found && shown(found)
    },
    logs: () => [...logs.values()].map(shown),
    asides: () => [...asides.values()],
    setAside_n: () => asides.size + forgotten_n,
  }
}

const keyOf = ({ sequence, at_ms, seq }: Pick<Aside, 'sequence' | 'at_ms' | 'seq'>): string =>
  `${sequence} ${at_ms} ${seq}`

const begun = (log: string): Building => ({
  log,
  entries: [],
  hands: [],
  held: [],
  sure: 0,
  sequence: 0,
  at_ms: 0,
})

/**
 * A log with the hand-overs that somebody remembers and the hub has lost.
 * @param held of a past of the hub
 */
export const rememberedIn = (log: ReplicaLog, held: readonly Hand[]): ReplicaLog => ({
  ...log,
  hands: handsOf({ ...log, held }),
})

const shown = (found: Building): ReplicaLog => ({ ...found, hands: handsOf(found) })

/** With those of a lost past that nothing at the hub speaks against. */
function handsOf({
  hands,
  held,
  sure,
}: Pick<Building, 'held'> & Pick<ReplicaLog, 'hands' | 'sure'>): readonly Hand[] {
  const still = held.filter(({ from_seq }) => from_seq > sure + 1 || hands.length === 0)
  return [...hands, ...still]
}

/** Why a message that is the device's own counts for nothing here. */
function whyNot(found: Building, arrived: Arrived, sha256: Sha256): AsideReason | undefined {
  const { kind, seq, hash, device } = arrived
  const of = readLogName(arrived.log)
  if (!of) return 'unreadable'
  if (of.kind === 'day' && of.device !== device) return 'otherDay'
  if (kind === 'writer') {
    const last = seq === 0 ? NO_PREVIOUS : found.entries[seq - 1]?.hash
    return last === hash && seq === found.sure ? undefined : 'brokenChain'
  }
  const writer = writerOf(found)
  if (writer !== undefined && writer !== device) return 'otherWriter'
  const isHeld = found.entries[seq - 1]?.hash === hash
  if (isHeld && seq <= found.sure + 1) return undefined
  return seq === found.sure + 1 && follows(found, arrived, sha256) ? undefined : 'brokenChain'
}

function follows({ entries }: Building, arrived: Arrived, sha256: Sha256): boolean {
  const { seq, hash, content } = arrived
  if (!isRecord(content) || content['seq'] !== seq || content['hash'] !== hash) return false
  if (content['previous'] !== (entries[seq - 2]?.hash ?? NO_PREVIOUS)) return false
  try {
    return hashOf(content, sha256) === hash
  } catch {
    return false
  }
}

function take(found: Building, { device, seq, at_ms }: Arrived): boolean {
  if (found.hands.at(-1)?.device === device) return false
  found.hands = [...found.hands, { device, from_seq: seq + 1, at_ms }]
  return true
}
