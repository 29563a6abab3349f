import { appendFault } from '../../core/log/appendFault.ts'
import type { LogEntry } from '../../core/protocol/entry.ts'
import type { LogStore } from '../../ports/logStore.ts'
import type { SettingsStore } from '../../ports/settingsStore.ts'
import { byOpening, storedDraw } from './storedDraw.ts'

/** Keeps logs until the page is closed: for tests, and for a browser that allows no storage. */
export function createMemoryLogStore(): LogStore {
  const draws = new Map<string, readonly LogEntry[]>()
  const originals = new Map<string, string>()
  const write = (drawId: string, entries: readonly LogEntry[]): void => {
    const known = draws.get(drawId) ?? []
    const fault = appendFault(known.at(-1), entries)
    if (fault) throw new Error(fault)
    // A copy: what is stored must not change when its writer changes something.
    draws.set(drawId, [...known, ...structuredClone(entries)])
  }
  return {
    append: (drawId, entries) => settle(() => write(drawId, entries)),
    load: (drawId) =>
      settle(() => {
        const entries = draws.get(drawId)
        if (!entries) return undefined
        return { format: 'stillhand-log', version: 1, drawId, entries: structuredClone(entries) }
      }),
    list: () =>
      settle(() =>
        [...draws].map(([id, entries]) => storedDraw(id, undefined, entries)).sort(byOpening),
      ),
    adopt: (log, original) =>
      settle(() => {
        if (draws.has(log.drawId)) throw new Error(`Draw ${log.drawId} is already on this device.`)
        write(log.drawId, log.entries)
        originals.set(log.drawId, original)
      }),
    original: (drawId) => settle(() => originals.get(drawId)),
  }
}

export function createMemorySettingsStore(): SettingsStore {
  const values = new Map<string, string>()
  return {
    read: (key) => settle(() => values.get(key)),
    write: (key, json) => settle(() => void values.set(key, json)),
  }
}

/** Runs at once and hands the outcome over as a promise, thrown errors included. */
function settle<T>(work: () => T): Promise<T> {
  return new Promise((resolve) => resolve(work()))
}
