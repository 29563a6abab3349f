import { HUB_START, type HubPosition } from '../../../core/hub/hubEntry.ts'
import { createHubLinks } from '../../../core/hub/hubLinks.ts'
import type { HubScope, HubWatcher } from '../../../ports/hub.ts'
import { wakeIn } from '../../../ports/patience.ts'
import { askLeader } from './compareAndWrite.ts'
import { entryOf, ofDelivered, ofStored } from './entryOf.ts'
import type { Device } from './natsEntries.ts'
import type { NatsLink, Wire } from './natsLink.ts'
import { follow } from './natsWatch.ts'
import { CLINIC_STREAM, scopeSubjects } from './subjects.ts'

const AGAIN_ms = 500

/**
 * Follows entries over all connections there will be. At each it asks the leader whether what was read last still
 * stands where it stood, and how far there is to go; a reader that does not link up begins again behind the last good
 * entry, so that no hole is given away.
 */
export function watchEntries(
  link: NatsLink,
  { clinic, clock }: Device,
  scope: HubScope,
  after: HubPosition,
  watcher: HubWatcher,
): () => void {
  const filter = scopeSubjects(clinic, scope)
  let position = after
  let links = createHubLinks(after.sequence)

  const onWire = (wire: Wire): (() => void) => {
    let isOn = true
    let stop = (): void => undefined
    let owed: number | undefined
    const caughtUp = (): void => {
      owed = undefined
      watcher.caughtUp?.()
    }
    const again = (): void => {
      if (isOn) stop = wakeIn(clock, AGAIN_ms, begin)
    }
    const begin = (): void => {
      link.call(look).then(go, again)
    }
    /** What the leader says: whether it still has our past, and its last entry. */
    const look = async () => {
      const { sequence } = position
      const stood = sequence > 0 && (await askLeader(wire, CLINIC_STREAM, { seq: sequence }))
      const last = await askLeader(wire, CLINIC_STREAM, { last_by_subj: filter })
      const holds = sequence === 0 || (stood && ofStored(stood).at_ms === position.at_ms)
      return { holds, end: last?.seq ?? 0 }
    }
    const go = ({ holds, end }: { readonly holds: unknown; readonly end: number }): void => {
      if (!isOn) return
      if (!holds) {
        position = HUB_START
        watcher.rewound?.()
      }
      links = createHubLinks(position.sequence)
      owed = end
      if (end <= position.sequence) caughtUp()
      const following = {
        stream: CLINIC_STREAM,
        filter,
        from: position.sequence + 1,
        broke: again,
        message: (message: Parameters<typeof ofDelivered>[0]): boolean => {
          const entry = entryOf(ofDelivered(message))
          if (!entry) return true
          const step = scope.kind === undefined ? links.take(entry) : 'next'
          if (step === 'gap') return false
          if (step === 'known' || entry.sequence <= position.sequence) return true
          position = { sequence: entry.sequence, at_ms: entry.at_ms }
          watcher.entry(entry, message.info.pending)
          if (isOn && owed !== undefined && entry.sequence >= owed) caughtUp()
          return true
        },
      }
      if (isOn) stop = follow(wire, following)
    }
    begin()
    return () => {
      isOn = false
      stop()
    }
  }
  return link.each(onWire)
}
