import { defined } from '../../core/basics/defined.ts'
import { appendRest } from '../../core/log/appendRest.ts'
import { LOG_VERSION } from '../../core/log/checkLog.ts'
import { readStored } from '../../core/log/readStored.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import type { LogEntry } from '../../core/protocol/entry.ts'
import type { LogStore } from '../../ports/logStore.ts'
import type { SettingsStore } from '../../ports/settingsStore.ts'
import { StorageError } from '../../ports/storageFault.ts'
import { claimKey, isFree, nextCount, settleNumber } from './drawNumbers.ts'
import { numberKey } from './schema.ts'
import { byOpening, drawRow } from './storedDraw.ts'

/** Keeps logs until the page is closed: for tests, and for a browser that allows no storage. */
export function createMemoryLogStore(sha256: Sha256): LogStore {
  const draws = new Map<string, readonly LogEntry[]>()
  const originals = new Map<string, string>()
  const last = new Map<string, number>()
  const numbers = {
    get: (key: string) => Promise.resolve(last.get(key)),
    put: (count: number, key: string) => Promise.resolve(void last.set(key, count)),
  }
  const write = (drawId: string, entries: readonly LogEntry[]): Promise<void> => {
    const known = draws.get(drawId) ?? []
    const rest = appendRest(known, entries)
    if ('refused' in rest) throw new StorageError(rest.refused, rest.reason)
    if (rest.add.length === 0) return Promise.resolve()
    // A copy: what is stored must not change when its writer changes something.
    draws.set(drawId, [...known, ...structuredClone(rest.add)])
    return settleNumber(numbers, drawId)
  }
  return {
    append: (drawId, entries) => settle(() => write(drawId, entries)),
    load: (drawId) =>
      settle(() => {
        const entries = draws.get(drawId)
        if (!entries) return undefined
        const raw = { version: LOG_VERSION, drawId, entries: structuredClone(entries) }
        const reading = readStored(raw, sha256)
        if ('log' in reading) return reading.log
        const { id, seq } = reading.unreadable
        throw new StorageError('damaged', `Entry ${seq}: ${id}`)
      }),
    list: () => settle(() => [...draws].map(([id, all]) => listed(id, all)).sort(byOpening)),
    adopt: (log, original) =>
      settle(() => {
        if (draws.has(log.drawId)) {
          throw new StorageError('alreadyHere', `Draw ${log.drawId} is already on this device.`)
        }
        const written = write(log.drawId, log.entries)
        originals.set(log.drawId, original)
        return written
      }),
    original: (drawId) => settle(() => originals.get(drawId)),
    erase: (drawId) =>
      settle(() => {
        draws.delete(drawId)
        originals.delete(drawId)
      }),
    claim: (key, now_ms) =>
      settle(() => {
        const isOurs = isFree(last.get(claimKey(key)), now_ms)
        if (isOurs) last.set(claimKey(key), now_ms)
        return isOurs
      }),
    reserveNumber: (prefix, day) =>
      settle(() => {
        const key = numberKey(prefix, day)
        const count = nextCount(
          last.get(key),
          [...draws.keys()].filter((id) => id.startsWith(key)),
        )
        last.set(key, count)
        return count
      }),
  }
}

export function createMemorySettingsStore(): SettingsStore {
  const values = new Map<string, string>()
  return {
    read: (key) => settle(() => values.get(key)),
    write: (key, json) => settle(() => void values.set(key, json)),
    update: (key, change) => settle(() => void values.set(key, change(values.get(key)))),
  }
}

function listed(drawId: string, entries: readonly LogEntry[]) {
  const first = entries[0]
  const opening = first?.event.type === 'drawOpened' ? first.event : undefined
  const opened = defined({
    opened_ms: first?.at.at_ms ?? 0,
    invented: opening?.invented ?? false,
    series: opening?.sitting?.series,
    listed: opening?.listed,
  })
  const { logVersion: _version, ...draw } = drawRow(drawId, opened, entries)
  return { ...draw, patientName: opening?.patient.fullName ?? '' }
}

/** Runs at once and hands the outcome over as a promise, thrown errors included. */
function settle<T>(work: () => T | Promise<T>): Promise<T> {
  return new Promise((resolve) => resolve(work()))
}
