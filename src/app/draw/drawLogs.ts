import { defined } from '../../core/basics/defined.ts'
import { createEmitter } from '../../core/basics/emitter.ts'
import { fillText } from '../../core/basics/fillText.ts'
import type { CheckedLog } from '../../core/log/readStored.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import type { Clock } from '../../ports/clock.ts'
import type { LogStore, StoredDraw } from '../../ports/logStore.ts'
import type { StorageTexts } from '../site/storageTexts.ts'
import { createLogWriter, type LogWriter, type Unsaved } from './logWriter.ts'

/**
 * The logs of this page's draws, stored or not yet. It lives as long as the page: a draw that was left with something
 * unsaved is still written, whatever other draw is opened meanwhile, and reading one gives all that is known of it.
 */
export interface DrawLogs {
  /** The writer for a draw that is opened now. */
  begin(drawId: string): LogWriter
  /** The writer for a log that was read; the one that still has entries to write goes on. */
  goOn(log: DrawLog): LogWriter
  /** The whole log with what is not stored yet. Rejects as the store does, unless this page knows the draw itself. */
  load(drawId: string): Promise<CheckedLog | undefined>
  /** Stored draws, and those of this page that could not be stored at all. */
  list(): Promise<readonly StoredDraw[]>
  /** What waits to be written, the longest waiting first. */
  unsaved(): readonly Unsaved[]
  readonly onUnsaved: (observer: (unsaved: readonly Unsaved[]) => void) => () => void
  /** Told when the browser has thrown away what was stored. */
  readonly onCleared: (observer: () => void) => () => void
  /** The disk may answer again: the page came back into view, or the machine to the network. */
  retryNow(): void
}

export interface DrawLogsDeps {
  readonly clock: Clock
  readonly logStore: Pick<LogStore, 'append' | 'load' | 'list'>
  readonly sha256: Sha256
  readonly storageTexts: StorageTexts
}

export function createDrawLogs(deps: DrawLogsDeps): DrawLogs {
  const { logStore } = deps
  const writers = new Map<string, LogWriter>()
  const told = createEmitter<readonly Unsaved[]>()
  const cleared = createEmitter<undefined>()
  const foreignNote = (from: number, to: number): string =>
    fillText(deps.storageTexts.foreignNote, { from, to })

  const unsaved = (): readonly Unsaved[] =>
    [...writers.values()]
      .flatMap((writer) => writer.unsaved() ?? [])
      .sort((a, b) => a.since_ms - b.since_ms)

  function add(drawId: string, stored?: DrawLog): LogWriter {
    const writer = createLogWriter({ ...deps, foreignNote }, drawId, stored?.entries)
    writer.onUnsaved(() => told.emit(unsaved()))
    writer.onCleared(() => cleared.emit(undefined))
    writers.set(drawId, writer)
    return writer
  }

  return {
    begin: (drawId) => add(drawId),
    goOn: (log) => {
      const known = writers.get(log.drawId)
      const last = known?.log().entries.at(-1)?.hash
      const isSame = known?.isWaiting() === true || last === log.entries.at(-1)?.hash
      return known && isSame ? known : add(log.drawId, log)
    },
    load: async (drawId) => {
      const writer = writers.get(drawId)
      if (!writer?.isWaiting()) return logStore.load(drawId)
      return writer.readAgain().catch(() => writer.log())
    },
    list: async () => {
      const stored = await logStore.list()
      const waiting = [...writers.values()].filter((writer) => writer.isWaiting())
      const ours = waiting.flatMap((writer) => listed(writer.log()))
      const ids = new Set(ours.map(({ drawId }) => drawId))
      const theirs = stored.filter(({ drawId }) => !ids.has(drawId))
      return [...ours, ...theirs].sort((a, b) => b.opened_ms - a.opened_ms)
    },
    unsaved,
    onUnsaved: told.observe,
    onCleared: cleared.observe,
    retryNow: () => writers.forEach((writer) => writer.retryNow()),
  }
}

/** The line in the list of a draw that only this page knows. */
function listed({ drawId, entries }: DrawLog): readonly StoredDraw[] {
  const first = entries[0]
  if (first?.event.type !== 'drawOpened') return []
  const { patient, invented, sitting, listed: serves } = first.event
  const closed = entries.some(({ event }) => event.type === 'drawClosed')
  const opened_ms = first.at.at_ms
  const patientName = patient.fullName
  const of = { series: sitting?.series, listed: serves, entries: entries.length }
  return [defined({ drawId, opened_ms, closed, patientName, invented, ...of })]
}
