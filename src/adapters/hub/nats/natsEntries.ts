import type { StoredMsg } from '@nats-io/jetstream'
import type { HubEntry, HubEntryKind } from '../../../core/hub/hubEntry.ts'
import { createHubLinks } from '../../../core/hub/hubLinks.ts'
import type { Clock } from '../../../ports/clock.ts'
import type { Appended, HubScope } from '../../../ports/hub.ts'
import { HubError } from '../../../ports/hubFault.ts'
import { wakeIn, within } from '../../../ports/patience.ts'
import { checkName, checkPlace, checkSize } from '../checkAsked.ts'
import { askLeader, compareAndWrite } from './compareAndWrite.ts'
import { entryOf, ofStored } from './entryOf.ts'
import type { NatsLink, Wire } from './natsLink.ts'
import { CLINIC_STREAM, entrySubject, logSubjects, scopeSubjects } from './subjects.ts'

/** Who reads and writes, and for how long an answer is waited for. */
export interface Device {
  readonly clinic: string
  readonly device: string
  readonly patience_ms: number
  readonly clock: Clock
}

/** Messages in one answer: some 300 kB of entries of a draw. */
const PAGE = 1000
/** So often a page is asked for again when entries are missing from it. */
const TRIES = 8
const AGAIN_ms = 60

export async function appendEntry(
  link: NatsLink,
  { clinic, device, patience_ms, clock }: Device,
  log: string,
  kind: HubEntryKind,
  given: Uint8Array,
  behind: number,
): Promise<Appended> {
  const bytes = new Uint8Array(checkSize(given))
  const among = logSubjects(clinic, checkName(log))
  const subject = entrySubject(clinic, log, device, kind)
  const place = { stream: CLINIC_STREAM, subject, among, behind: checkPlace(behind) }
  return link.call(async (wire) => {
    const sequence = await compareAndWrite(wire, clock, place, bytes, patience_ms)
    if (sequence !== undefined) return { kind: 'stored', sequence }
    const which = { seq: behind + 1, next_by_subj: among }
    const next = await askLeader(wire, CLINIC_STREAM, which)
    const stands = next && entryOf(ofStored(next))
    return stands ? { kind: 'stale', next: stands } : { kind: 'stale' }
  })
}

export async function lastEntry(
  link: NatsLink,
  { clinic }: Device,
  log: string,
): Promise<HubEntry | undefined> {
  const last_by_subj = logSubjects(clinic, checkName(log))
  return link.call(async (wire) => {
    const message = await askLeader(wire, CLINIC_STREAM, { last_by_subj })
    return message && entryOf(ofStored(message))
  })
}

/** One page of entries, from whichever node answers. */
function page(wire: Wire, filter: string, after: number): Promise<readonly StoredMsg[]> {
  return new Promise((resolve, reject) => {
    const all: StoredMsg[] = []
    const callback = (done: { readonly err?: Error } | null, message: StoredMsg): void => {
      if (!done) all.push(message)
      else if (done.err && all.length === 0 && !/no results/i.test(done.err.message)) {
        reject(done.err)
      } else resolve(all)
    }
    const asked = { seq: after + 1, next_by_subj: filter, batch: PAGE, callback }
    wire.manager.direct.getBatch(CLINIC_STREAM, asked).catch(reject)
  })
}

/**
 * Reads up to what the leader says is the last. Pages come from any node, which may lag: what does not link up, or ends
 * too early, is asked for again, and never given away with a hole in it.
 */
export async function readEntries(
  link: NatsLink,
  { clinic, clock, patience_ms }: Device,
  scope: HubScope,
  after: number,
): Promise<readonly HubEntry[]> {
  if (scope.log !== undefined) checkName(scope.log)
  checkPlace(after)
  const filter = scopeSubjects(clinic, scope)
  const end = await link.call(async (wire) => {
    const last = await askLeader(wire, CLINIC_STREAM, { last_by_subj: filter })
    return last?.seq ?? 0
  })
  const links = createHubLinks(after)
  const all: HubEntry[] = []
  let tries = TRIES
  for (let at = after; at < end;) {
    const messages = await link.call((wire) =>
      within(clock, patience_ms, page(wire, filter, at), () => {
        return new HubError('unreachable', 'A page of entries did not end')
      }),
    )
    let fresh = 0
    for (const message of messages) {
      const entry = entryOf(ofStored(message))
      fresh += 1
      if (!entry) at = message.seq
      if (!entry) continue
      // Of one kind alone no log is whole, and there is nothing to link.
      const step = scope.kind === undefined ? links.take(entry) : 'next'
      if (step === 'gap') {
        fresh -= 1
        break
      }
      if (step === 'known' || entry.sequence <= at) continue
      all.push(entry)
      at = entry.sequence
    }
    if (fresh > 0) tries = TRIES
    else if ((tries -= 1) < 0) throw new HubError('damaged', `Entries are missing after ${at}`)
    else await new Promise<void>((resolve) => void wakeIn(clock, AGAIN_ms, resolve))
  }
  return all
}
