import { rememberedIn, writerOf, type Hand, type ReplicaLog } from './replica.ts'

/** Where an entry stands in its chain. */
export interface Link {
  readonly seq: number
  readonly hash: string
}

/** The last message of a log as the hub holds it, its envelope read. */
export interface LastAtHub extends Link {
  readonly sequence: number
  readonly device: string
}

/** What is to be done next for a log of this device. */
export type SendStep =
  /** Everything stands at the hub. */
  | { readonly kind: 'done' }
  /** Send from that entry on, behind that sequence of the stream. @property until the last one that is ours to send */
  | {
      readonly kind: 'send'
      readonly from_seq: number
      readonly until_seq: number
      readonly behind: number
    }
  /** The hub lost that this device took the log over: it says so again, behind that sequence and that entry. */
  | { readonly kind: 'take'; readonly behind: number; readonly last: Link | undefined }
  /** The last message does not tell enough: the whole log has to be read. */
  | { readonly kind: 'look' }
  /** The hub holds entries of this device's own that are missing here: from that one on. */
  | { readonly kind: 'fetch'; readonly from_seq: number }
  /** What the hub lost is for the device to bring that it believes to write the log; until then nothing counts. */
  | { readonly kind: 'wait' }
  /**
   * Another device writes the log, or what stands at the hub differs: own entries from that one on are no part of the
   * record.
   */
  | { readonly kind: 'aside'; readonly from_seq: number; readonly writer: string | undefined }

/**
 * What to do by the last message alone. Answers `look` unless everything is as it mostly is: nothing there yet, or the
 * last message is our own and stands in our log.
 * @param own the log of this device, from its first entry
 */
export function sendPlan(
  own: readonly Link[],
  last: LastAtHub | undefined,
  device: string,
): SendStep {
  const until_seq = own.length
  if (!last) return until_seq === 0 ? DONE : { kind: 'send', from_seq: 1, until_seq, behind: 0 }
  if (last.device !== device) return LOOK
  const isOurs = last.seq === 0 || own[last.seq - 1]?.hash === last.hash
  if (!isOurs) return LOOK
  if (last.seq === until_seq) return DONE
  return { kind: 'send', from_seq: last.seq + 1, until_seq, behind: last.sequence }
}

/**
 * What to do when the whole log at the hub was read.
 * @param told the log as the messages of the hub tell it
 * @param remembered hand-overs that this device remembers, also where the hub has lost them with its disk
 * @param hasTaken this device took the log over at some time
 */
export function sendPlanOf(
  own: readonly Link[],
  told: ReplicaLog | undefined,
  device: string,
  { hasTaken, remembered }: { readonly hasTaken: boolean; readonly remembered: readonly Hand[] },
): SendStep {
  if (!told || told.sequence === 0) return sendPlan(own, undefined, device)
  const hub = rememberedIn(told, remembered)
  const believed = writerOf(told)
  const there = hub.entries.slice(0, hub.sure)
  const differs = own.findIndex(({ hash }, index) => there[index] && there[index].hash !== hash)
  const writer = writerOf(hub)
  if (differs >= 0) return { kind: 'aside', from_seq: differs + 1, writer }
  const behind = hub.sequence
  const next_seq = there.length + 1
  const isBelieved = believed === undefined || believed === device
  // The log has not begun: whatever stands there counts for nothing.
  if (writer === undefined || (writer === device && isBelieved)) {
    if (own.length < there.length) return { kind: 'fetch', from_seq: own.length + 1 }
    if (own.length === there.length) return DONE
    return { kind: 'send', from_seq: next_seq, until_seq: own.length, behind }
  }
  // Nobody takes anything from this device before the hub has been told again that it writes the log.
  const wasLost =
    writer === device || (hasTaken && !hub.hands.some((hand) => hand.device === device))
  if (wasLost) {
    if (own.length < there.length) return { kind: 'aside', from_seq: own.length + 1, writer }
    return { kind: 'take', behind, last: there.at(-1) }
  }
  // What this device wrote before it handed over counts, also where the hub has lost it.
  const until_seq = Math.min(own.length, (hub.hands.at(-1)?.from_seq ?? 1) - 1)
  if (next_seq <= until_seq) {
    return isBelieved ? { kind: 'send', from_seq: next_seq, until_seq, behind } : WAIT
  }
  if (own.length > Math.max(there.length, until_seq)) {
    return { kind: 'aside', from_seq: Math.max(there.length, until_seq) + 1, writer }
  }
  return DONE
}

const DONE = { kind: 'done' } as const
const WAIT = { kind: 'wait' } as const
const LOOK = { kind: 'look' } as const
