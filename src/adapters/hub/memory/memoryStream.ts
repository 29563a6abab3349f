import type { HubEntry, HubEntryKind } from '../../../core/hub/hubEntry.ts'
import type { Appended, KeyValue, Put } from '../../../ports/hub.ts'

/** What a clinic's hub holds, as it was at some time. */
export interface MemoryCopy {
  readonly entries: readonly HubEntry[]
  readonly values: readonly KeyValue[]
}

/** A stream and its keys in memory: one thing after another, nothing waits, nothing fails. */
export interface MemoryStream {
  append(
    device: string,
    log: string,
    kind: HubEntryKind,
    bytes: Uint8Array,
    behind: number,
  ): Appended
  entries(): readonly HubEntry[]
  put(key: string, bytes: Uint8Array, revision: number): Put
  value(key: string): KeyValue | undefined
  values(): readonly KeyValue[]
  readonly copy: () => MemoryCopy
  restore(copy: MemoryCopy): void
}

/** @param now_ms the hub's own clock */
export function createMemoryStream(now_ms: () => number): MemoryStream {
  let entries: readonly HubEntry[] = []
  let values = new Map<string, KeyValue>()
  let revision = 0
  let given_ms = 0
  /** No two entries of one time, also after an old copy was put back. */
  const stamp = (): number => (given_ms = Math.max(given_ms + 1, now_ms()))

  return {
    append(device, log, kind, bytes, behind) {
      const ofLog = entries.filter((entry) => entry.log === log)
      if ((ofLog.at(-1)?.sequence ?? 0) !== behind) {
        const next = ofLog.find(({ sequence }) => sequence > behind)
        return next ? { kind: 'stale', next } : { kind: 'stale' }
      }
      const sequence = (entries.at(-1)?.sequence ?? 0) + 1
      const at_ms = stamp()
      entries = [
        ...entries,
        { sequence, log, device, kind, behind, at_ms, bytes: new Uint8Array(bytes) },
      ]
      return { kind: 'stored', sequence, at_ms }
    },
    entries: () => entries,
    put(key, bytes, expected) {
      const now = values.get(key)
      if ((now?.revision ?? 0) !== expected) return now ? { kind: 'stale', now } : { kind: 'stale' }
      revision += 1
      values.set(key, { key, revision, at_ms: stamp(), bytes: new Uint8Array(bytes) })
      return { kind: 'stored', revision }
    },
    value: (key) => values.get(key),
    values: () => [...values.values()].sort((a, b) => a.revision - b.revision),
    copy: () => ({ entries, values: [...values.values()] }),
    restore(copy) {
      entries = copy.entries
      values = new Map(copy.values.map((value) => [value.key, value]))
      revision = Math.max(0, ...copy.values.map((value) => value.revision))
    },
  }
}
