import { defined } from '../../core/basics/defined.ts'
import { isRecord } from '../../core/basics/isRecord.ts'
import type { DayEntry } from '../../core/day/dayEvents.ts'
import { readDayLog } from '../../core/day/dayLog.ts'
import { readLogName } from '../../core/hub/logNames.ts'
import { writerOf, type ReplicaEntry, type ReplicaLog } from '../../core/hub/replica.ts'
import { LOG_VERSION } from '../../core/log/checkLog.ts'
import { readStored, type CheckedLog } from '../../core/log/readStored.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import type { LogEntry } from '../../core/protocol/entry.ts'
import type { OtherDraw } from './clinic.ts'

/** What other devices recorded, read from their logs; each log again only when it has changed. */
export interface OthersRecords {
  /** Takes logs as they now stand. */
  notice(logs: readonly ReplicaLog[]): void
  readonly dayEntries: () => readonly DayEntry[]
  readonly draws: () => readonly OtherDraw[]
  readonly load: (drawId: string) => CheckedLog | undefined
  clear(): void
}

/** Invented patients are somebody's practice: they stand on the list of the device that tries it, and on no other. */
const isOfPatients = ({ event }: DayEntry): boolean => !('order' in event && event.order.invented)

interface Known {
  readonly draw: OtherDraw
  readonly of: ReplicaLog
  readonly opening: LogEntry
  /** As it was checked last, and what of it. */
  checked?: { readonly upTo: string; readonly log: CheckedLog | undefined }
}

/** A log that is written on says so by its length and its last hash. */
const endOf = ({ entries }: ReplicaLog): string => `${entries.length} ${entries.at(-1)?.hash ?? ''}`

const typeOf = (raw: unknown): unknown =>
  isRecord(raw) && isRecord(raw['event']) ? raw['event']['type'] : undefined

/**
 * @param nameOf what people call a device
 * @param isHere whether a device belongs to the clinic now
 */
export function createOthersRecords(
  device: string,
  nameOf: (device: string) => string | undefined,
  isHere: (device: string) => boolean,
  sha256: Sha256,
): OthersRecords {
  const draws = new Map<string, Known>()
  const days = new Map<string, readonly DayEntry[]>()

  function read(drawId: string, entries: readonly ReplicaEntry[]): CheckedLog | undefined {
    const raw = { version: LOG_VERSION, drawId, entries: entries.map(({ raw: entry }) => entry) }
    const reading = readStored(raw, sha256)
    return 'log' in reading ? reading.log : undefined
  }

  /** A hub may come back with another draw in the place of this one: the log grows, and changes where it stands. */
  function readOpening(
    drawId: string,
    { entries }: ReplicaLog,
    known: LogEntry | undefined,
  ): LogEntry | undefined {
    if (known && known.hash === entries[0]?.hash) return known
    return read(drawId, entries.slice(0, 1))?.entries[0]
  }

  /** Who began it, unless it was this device, also under the name of before it joined anew. */
  function begunBy({ hands }: ReplicaLog): string | undefined {
    const first = hands[0]?.device
    if (first === undefined || first === device || !isHere(first)) return undefined
    const name = nameOf(first) ?? first
    return name === nameOf(device) ? undefined : name
  }

  /** Its opening alone is checked, and the rest when it is asked for: a day alone brings thousands of entries. */
  function noticeDraw(drawId: string, of: ReplicaLog): void {
    const writer = writerOf(of)
    const isOther = writer !== undefined && writer !== device
    const before = draws.get(drawId)
    const opening = isOther ? readOpening(drawId, of, before?.opening) : undefined
    if (writer === undefined || opening?.event.type !== 'drawOpened') {
      draws.delete(drawId)
      return
    }
    const { patient, invented, sitting, listed } = opening.event
    const draw = defined({
      drawId,
      opened_ms: opening.at.at_ms,
      closed: of.entries.some(({ raw }) => typeOf(raw) === 'drawClosed'),
      patientName: patient.fullName,
      invented,
      series: sitting?.series,
      listed,
      entries: of.entries.length,
      deviceName: nameOf(writer) ?? writer,
      begunBy: begunBy(of),
      heard_ms: of.at_ms,
    })
    draws.set(drawId, defined({ draw, of, opening, checked: before?.checked }))
  }

  /** The same object for as long as nothing was written on. */
  function load(drawId: string): CheckedLog | undefined {
    const known = draws.get(drawId)
    if (!known) return undefined
    const upTo = endOf(known.of)
    if (known.checked?.upTo !== upTo) known.checked = { upTo, log: read(drawId, known.of.entries) }
    return known.checked.log
  }

  return {
    notice: (logs) => {
      for (const each of logs) {
        const of = readLogName(each.log)
        if (of?.kind === 'draw') noticeDraw(of.drawId, each)
        if (of?.kind !== 'day' || of.device === device) continue
        const raw = each.entries.map(({ raw: entry }) => entry)
        // Behind a fault nothing counts; it is told as what was not taken.
        days.set(each.log, readDayLog(of.day, raw, sha256).entries.filter(isOfPatients))
      }
    },
    dayEntries: () => [...days.keys()].sort().flatMap((log) => days.get(log) ?? []),
    draws: () =>
      [...draws.values()].map(({ draw }) => draw).sort((a, b) => b.opened_ms - a.opened_ms),
    load,
    clear: () => {
      draws.clear()
      days.clear()
    },
  }
}
