import { dayLogName, drawLogName, readLogName } from '../../core/hub/logNames.ts'
import type { DayEntry } from '../../core/day/dayEvents.ts'
import type { ChainEntry, LogEntry } from '../../core/protocol/entry.ts'
import { calendarDate } from '../../core/time/format.ts'
import type { Clock } from '../../ports/clock.ts'
import type { DayStore } from '../../ports/dayStore.ts'
import type { LogStore } from '../../ports/logStore.ts'

/** A log of this device, and how far it has come. */
export interface OwnEnd {
  readonly log: string
  /** Missing where only reading it tells. */
  readonly entries: number | undefined
}

/** The logs that this device writes, as they are stored here: draws of patients and its days. Rejects as stores do. */
export interface OwnLogs {
  ends(): Promise<readonly OwnEnd[]>
  load(log: string): Promise<readonly ChainEntry[]>
  /** Entries of this device's own that it has lost, from the hub; refused where they do not follow. */
  add(log: string, entries: readonly unknown[]): Promise<void>
}

/** Logs of so many days are gone through with each new connection. */
const DAYS = 31
const DAY_ms = 86_400_000

export interface OwnLogsDeps {
  readonly device: string
  readonly clock: Clock
  readonly logStore: Pick<LogStore, 'append' | 'list' | 'load' | 'original'>
  readonly dayStore: Pick<DayStore, 'append' | 'ends' | 'load'>
}

export function createOwnLogs({ device, clock, logStore, dayStore }: OwnLogsDeps): OwnLogs {
  /** Whether a draw was recorded here: what was brought in as a file is somebody else's to send. */
  const isRecorded = new Map<string, boolean>()

  async function wasRecorded(drawId: string): Promise<boolean> {
    const known = isRecorded.get(drawId)
    if (known !== undefined) return known
    const recorded = (await logStore.original(drawId)) === undefined
    isRecorded.set(drawId, recorded)
    return recorded
  }

  return {
    ends: async () => {
      const { wall_ms, offset_min } = clock.read()
      const since_ms = wall_ms - DAYS * DAY_ms
      const days = await dayStore.ends(calendarDate({ at_ms: since_ms, offset_min }))
      const ends: OwnEnd[] = days.map(({ day, entries }) => ({
        log: dayLogName(day, device),
        entries,
      }))
      for (const { drawId, entries, opened_ms, invented } of await logStore.list()) {
        const isSent = !invented && opened_ms >= since_ms && (await wasRecorded(drawId))
        if (isSent) ends.push({ log: drawLogName(drawId), entries })
      }
      return ends
    },
    load: async (log) => {
      const of = readLogName(log)
      if (of?.kind === 'day') return (await dayStore.load(of.day)).entries
      const stored = of && (await logStore.load(of.drawId))
      // Behind a fault nothing is passed on as if it were good.
      const sound = stored?.fault ? stored.fault.seq - 1 : Infinity
      return (stored?.entries ?? []).slice(0, Math.max(0, sound))
    },
    add: async (log, entries) => {
      const of = readLogName(log)
      if (of?.kind === 'day') await dayStore.append(of.day, entries as readonly DayEntry[])
      if (of?.kind === 'draw') await logStore.append(of.drawId, entries as readonly LogEntry[])
    },
  }
}
