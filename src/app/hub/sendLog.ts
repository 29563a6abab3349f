import { createReplica, type Hand } from '../../core/hub/replica.ts'
import {
  sendPlan,
  sendPlanOf,
  type LastAtHub,
  type Link,
  type SendStep,
} from '../../core/hub/sendPlan.ts'
import { NO_PREVIOUS, type Sha256 } from '../../core/log/seal.ts'
import type { Hub } from '../../ports/hub.ts'
import { lastAtHub, type Envelopes } from './envelopes.ts'

/** How far a log of this device has come. */
export type SentLog =
  | { readonly kind: 'done'; readonly last?: LastAtHub }
  /** Another device has to bring something first. */
  | { readonly kind: 'wait' }
  /** The hub holds entries of this device's own that are missing here. */
  | { readonly kind: 'fetch'; readonly entries: readonly unknown[] }
  /** Own entries from that one on are no part of the record. */
  | { readonly kind: 'aside'; readonly from_seq: number; readonly writer: string | undefined }

export interface SendLogDeps {
  readonly hub: Pick<Hub, 'append' | 'last' | 'read'>
  readonly envelopes: Envelopes
  readonly sha256: Sha256
}

export interface SentAs {
  /** The last message of the log as it stood when this device looked last over this connection. */
  readonly known?: LastAtHub | undefined
  /** This device took the log over at some time. */
  readonly hasTaken: boolean
  /** Hand-overs that this device remembers, also where the hub has lost them. */
  readonly hands: readonly Hand[]
  /** What is said with a take-over; sealed. */
  readonly takeNote: unknown
  /** So many entries stand at the hub. */
  readonly onConfirmed: (entries: number) => void
}

/** So often a log is looked at again in one go because others write into it at the same time. */
const MOST_LOOKS = 5

/**
 * Brings one log of this device to the hub, in order, one entry behind the other. It may be given up at any moment and
 * begun anew: what the hub has is asked each time, and what stands there already is known again by its hash.
 * @throws HubError as the hub does; nothing is lost
 */
export async function sendLog(
  { hub, envelopes, sha256 }: SendLogDeps,
  log: string,
  own: readonly Link[],
  as: SentAs,
): Promise<SentLog> {
  const { device } = envelopes

  async function look(): Promise<SendStep> {
    const replica = createReplica(sha256)
    for (const entry of await hub.read({ log }, 0)) replica.add(await envelopes.open(entry))
    const { hasTaken, hands: remembered } = as
    return sendPlanOf(own, replica.log(log), device, { hasTaken, remembered })
  }

  /** Answers false where the hub holds something else than was believed. */
  async function send(from_seq: number, until_seq: number, first: number): Promise<boolean> {
    let behind = first
    for (const entry of own.slice(from_seq - 1, until_seq)) {
      const bytes = await envelopes.close('entry', log, entry, entry)
      const appended = await hub.append(log, 'entry', bytes, behind)
      if (appended.kind === 'stored') behind = appended.sequence
      else {
        // An answer that was lost looks like this too.
        const next = lastAtHub(appended.next)
        const isOurs = next?.device === device && next.hash === entry.hash
        if (!isOurs) return false
        behind = next.sequence
      }
      last = { sequence: behind, device, seq: entry.seq, hash: entry.hash }
      as.onConfirmed(entry.seq)
    }
    return true
  }

  async function fetch(from_seq: number): Promise<readonly unknown[]> {
    const replica = createReplica(sha256)
    for (const entry of await hub.read({ log }, 0)) replica.add(await envelopes.open(entry))
    return (replica.log(log)?.entries ?? []).slice(from_seq - 1).map(({ raw }) => raw)
  }

  let last = as.known ?? lastAtHub(await hub.last(log))
  let step = sendPlan(own, last, device)
  for (let looks = 0; looks < MOST_LOOKS; looks++) {
    if (step.kind === 'look') step = await look()
    switch (step.kind) {
      case 'done':
        as.onConfirmed(own.length)
        return doneAt(last, own, device)
      case 'wait':
        return step
      case 'aside':
        as.onConfirmed(step.from_seq - 1)
        return step
      case 'fetch':
        as.onConfirmed(own.length)
        return { kind: 'fetch', entries: await fetch(step.from_seq) }
      case 'send': {
        const isSent = await send(step.from_seq, step.until_seq, step.behind)
        if (isSent && step.until_seq === own.length) return doneAt(last, own, device)
        break
      }
      case 'take': {
        const last = step.last ?? { seq: 0, hash: NO_PREVIOUS }
        const bytes = await envelopes.close('writer', log, last, as.takeNote)
        await hub.append(log, 'writer', bytes, step.behind)
        break
      }
      case 'look':
    }
    step = { kind: 'look' }
  }
  throw new Error(`The log ${log} changes all the time.`)
}

/** What was read of the whole log tells no more than that all is there. */
const doneAt = (last: LastAtHub | undefined, own: readonly Link[], device: string): SentLog =>
  last?.device === device && last.seq === own.length ? { kind: 'done', last } : { kind: 'done' }
