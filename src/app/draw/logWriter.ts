import { sealBehind } from '../../core/log/sealBehind.ts'
import type { CheckedLog } from '../../core/log/readStored.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import { createEmitter } from '../../core/basics/emitter.ts'
import { LOG_FORMAT, LOG_VERSION } from '../../core/log/checkLog.ts'
import type { DrawLog, LogEntry } from '../../core/protocol/entry.ts'
import type { Clock } from '../../ports/clock.ts'
import type { LogStore } from '../../ports/logStore.ts'
import { wakeIn, within } from '../../ports/patience.ts'
import { StorageError, storageFaultOf } from '../../ports/storageFault.ts'

/** So long a command waits for the disk before it takes effect. Longer would be felt, and would hold an alarm. */
export const LOG_FIRST_ms = 150
/** So long a write may be under way before the screen says that nothing is saved. */
const SAY_UNSAVED_ms = 1000
/** So long a write is waited for. What succeeds later is known again by its hash. */
export const GIVE_UP_ms = 2000
/** Waits between attempts; the last one goes on. */
export const RETRY_ms = [1000, 2000, 5000, 10_000] as const

const slow = (): StorageError => new StorageError('hanging', 'A write is under way and not done.')

/** What is not on the disk yet, although it should be. */
export interface Unsaved {
  /** Missing: of the day's list. */
  readonly drawId?: string
  /** Unix ms of the first entry that waits. */
  readonly since_ms: number
  readonly offset_min: number
  readonly entries: number
  readonly error: unknown
}

/** Others wrote into the draw: the whole log as it now stands, ours behind theirs. */
export interface Mended {
  readonly entries: readonly LogEntry[]
  readonly foreign: number
}

/**
 * Brings the entries of one draw to the store, in order, for as long as it takes. It keeps what could not be written,
 * tries again by itself, and goes on behind entries that another page wrote.
 */
export interface LogWriter {
  readonly drawId: string
  /** The whole log, with what is not stored yet. */
  log(): DrawLog
  /** Resolves once the entries are stored, or when a command must not wait any longer. Never rejects. */
  write(entries: readonly LogEntry[]): Promise<void>
  unsaved(): Unsaved | undefined
  /** Some entries are not stored, whether or not an attempt has failed yet. */
  isWaiting(): boolean
  retryNow(): void
  /**
   * Reads what others have added. Rejects as the store does.
   * @returns the whole log with the store's verdict on its chain; `undefined` when nothing of the draw exists
   */
  readAgain(): Promise<CheckedLog | undefined>
  readonly onMended: (observer: (mended: Mended) => void) => () => void
  /** Told when the store has lost entries that it had; they are written again. */
  readonly onCleared: (observer: () => void) => () => void
  readonly onUnsaved: (observer: (unsaved: Unsaved | undefined) => void) => () => void
}

export interface LogWriterDeps {
  readonly clock: Clock
  readonly logStore: Pick<LogStore, 'append' | 'load'>
  readonly sha256: Sha256
  /** The note that goes before entries which were put behind those of another page. */
  readonly foreignNote: (from: number, to: number) => string
}

/** @param stored what the store holds of the draw; nothing for a new one */
export function createLogWriter(
  deps: LogWriterDeps,
  drawId: string,
  stored: readonly LogEntry[] = [],
): LogWriter {
  const { clock, logStore } = deps
  const mended = createEmitter<Mended>()
  const told = createEmitter<Unsaved | undefined>()
  const cleared = createEmitter<undefined>()
  let saved: readonly LogEntry[] = stored
  let waiting: readonly LogEntry[] = []
  let failure: unknown
  let failures = 0
  let attempt: Promise<void> | undefined
  let cancelRetry: (() => void) | undefined

  const unsaved = (): Unsaved | undefined => {
    const first = waiting[0]
    if (!first || failure === undefined) return undefined
    const { wall_ms, offset_min } = first.at
    return { drawId, since_ms: wall_ms, offset_min, entries: waiting.length, error: failure }
  }

  function fail(error: unknown): void {
    failure = error
    told.emit(unsaved())
  }

  function succeed(): void {
    const wasTold = failure !== undefined
    failure = undefined
    failures = 0
    if (wasTold) told.emit(undefined)
  }

  function catchUp(now: readonly LogEntry[]): void {
    const all = [...saved, ...waiting]
    const parted = all.findIndex(({ hash }, index) => hash !== now[index]?.hash)
    const common = parted < 0 ? all.length : parted
    const ours = all.slice(common)
    const last = now.at(-1)
    if (now.length < saved.length) cleared.emit(undefined)
    saved = now
    if (now.length === common || !last) {
      waiting = ours
      return
    }
    const note = deps.foreignNote(common + 1, now.length)
    waiting = sealBehind(last, ours, note, deps.sha256)
    mended.emit({ entries: [...saved, ...waiting], foreign: now.length - common })
  }

  /** Appends what waits. Where others were first, or the store has lost entries, it reads what is there and goes on. */
  async function append(isCurrent: () => boolean): Promise<readonly LogEntry[]> {
    const batch = waiting
    try {
      await logStore.append(drawId, batch)
      return batch
    } catch (error) {
      const fault = storageFaultOf(error)
      if (!isCurrent() || (fault !== 'movedOn' && fault !== 'gap')) throw error
      const now = await logStore.load(drawId)
      if (!isCurrent()) throw error
      if (now?.fault) throw new StorageError('damaged', `Entry ${now.fault.seq}: ${now.fault.id}`)
      catchUp(now?.entries ?? [])
      const behind = waiting
      await logStore.append(drawId, behind)
      return behind
    }
  }

  async function tryOnce(): Promise<void> {
    let given = false
    const cancelSaying = wakeIn(clock, SAY_UNSAVED_ms, () => fail(slow()))
    try {
      const batch = await within(
        clock,
        GIVE_UP_ms,
        append(() => !given),
        slow,
      )
      saved = [...saved, ...batch]
      waiting = waiting.slice(batch.length)
      succeed()
    } catch (error) {
      given = true
      fail(error)
      const wait_ms = RETRY_ms[Math.min(failures++, RETRY_ms.length - 1)] ?? 0
      cancelRetry = wakeIn(clock, wait_ms, () => void start())
    } finally {
      cancelSaying()
    }
  }

  /** One attempt at a time. Entries that come while it runs go with the next one, which follows at once. */
  function start(): Promise<void> {
    if (attempt)
      return attempt.then(() => (waiting.length > 0 && !cancelRetry ? start() : undefined))
    cancelRetry?.()
    cancelRetry = undefined
    attempt = tryOnce().finally(() => (attempt = undefined))
    return attempt
  }

  return {
    drawId,
    log: () => logOf(drawId, [...saved, ...waiting]),
    write: async (entries) => {
      waiting = [...waiting, ...entries]
      const isHanging = failure !== undefined && storageFaultOf(failure) === 'hanging'
      const done = start()
      if (!isHanging) await within(clock, LOG_FIRST_ms, done, slow).catch(() => undefined)
    },
    unsaved,
    isWaiting: () => waiting.length > 0,
    retryNow: () => {
      if (waiting.length > 0) void start()
    },
    readAgain: async () => {
      await attempt
      const now = await logStore.load(drawId)
      if (now?.fault) return now
      catchUp(now?.entries ?? [])
      const entries = [...saved, ...waiting]
      return entries.length > 0 ? logOf(drawId, entries) : undefined
    },
    onMended: mended.observe,
    onCleared: cleared.observe,
    onUnsaved: told.observe,
  }
}

function logOf(drawId: string, entries: readonly LogEntry[]): DrawLog {
  return { format: LOG_FORMAT, version: LOG_VERSION, drawId, entries }
}
