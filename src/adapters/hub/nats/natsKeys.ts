import type { HubKeys, KeyValue } from '../../../ports/hub.ts'
import { wakeIn } from '../../../ports/patience.ts'
import { checkKey, checkName, checkPlace, checkSize } from '../checkAsked.ts'
import { askLeader, compareAndWrite } from './compareAndWrite.ts'
import { ofDelivered, ofStored, valueOf } from './entryOf.ts'
import type { Device } from './natsEntries.ts'
import type { NatsLink, Wire } from './natsLink.ts'
import { follow } from './natsWatch.ts'
import { keysSubject, keySubject, SITE_STREAM } from './subjects.ts'

const AGAIN_ms = 500

/**
 * Values in a stream that keeps the last message of each subject. The library's own reader of such buckets asks
 * whichever node is near, which may lag: a claim is asked of the leader here, by the same comparison as an entry.
 */
export function createNatsKeys(link: NatsLink, { clinic, clock, patience_ms }: Device): HubKeys {
  const valueAt = async (wire: Wire, key: string): Promise<KeyValue | undefined> => {
    const message = await askLeader(wire, SITE_STREAM, { last_by_subj: keySubject(clinic, key) })
    return message && valueOf(ofStored(message))
  }
  return {
    async get(key) {
      checkKey(key)
      return link.call((wire) => valueAt(wire, key))
    },
    async put(key, given, revision) {
      const bytes = new Uint8Array(checkSize(given))
      const subject = keySubject(clinic, checkKey(key))
      const behind = checkPlace(revision)
      const place = { stream: SITE_STREAM, subject, among: subject, behind }
      return link.call(async (wire) => {
        const stored = await compareAndWrite(wire, clock, place, bytes, patience_ms)
        if (stored !== undefined) return { kind: 'stored', revision: stored }
        const now = await valueAt(wire, key)
        return now ? { kind: 'stale', now } : { kind: 'stale' }
      })
    },
    watch(first, onValue, onAll) {
      const filter = keysSubject(clinic, checkName(first))
      return link.each((wire) => {
        let isOn = true
        let isAll = false
        let stop = (): void => undefined
        const all = (): void => {
          if (!isAll && isOn) onAll?.()
          isAll = true
        }
        const again = (): void => {
          if (isOn) stop = wakeIn(clock, AGAIN_ms, begin)
        }
        const begin = (): void => {
          const end = () => askLeader(wire, SITE_STREAM, { last_by_subj: filter })
          link.call(end).then((last) => go(last?.seq), again)
        }
        const go = (end: number | undefined): void => {
          if (end === undefined) all()
          if (!isOn) return
          const message = (delivered: Parameters<typeof ofDelivered>[0]): boolean => {
            const value = valueOf(ofDelivered(delivered))
            if (value) onValue(value)
            if (end !== undefined && delivered.seq >= end) all()
            return true
          }
          stop = follow(wire, { stream: SITE_STREAM, filter, message, broke: again })
        }
        begin()
        return () => {
          isOn = false
          stop()
        }
      })
    },
  }
}
