import { createTurns } from '../../core/basics/turns.ts'
import { createEmitter } from '../../core/basics/emitter.ts'
import { ok, type Result } from '../../core/basics/result.ts'
import type { DayEntry, DayEvent } from '../../core/day/dayEvents.ts'
import type { DayLog } from '../../core/day/dayLog.ts'
import { joinDays } from '../../core/day/joinDays.ts'
import { foldDays, type DayState } from '../../core/day/dayState.ts'
import { decideDay, type DayCommand, type DayRefusal } from '../../core/day/decideDay.ts'
import { NO_PREVIOUS, sealEntry, type Sha256 } from '../../core/log/seal.ts'
import type { Source } from '../../core/protocol/entry.ts'
import { calendarDate } from '../../core/time/format.ts'
import { stampAfter, type Reading } from '../../core/time/stamp.ts'
import type { Clock } from '../../ports/clock.ts'
import type { DayStore } from '../../ports/dayStore.ts'
import { wakeIn, within } from '../../ports/patience.ts'
import { StorageError, storageFaultOf } from '../../ports/storageFault.ts'
import { GIVE_UP_ms, LOG_FIRST_ms, RETRY_ms, type Unsaved } from '../draw/logWriter.ts'

/** Orders that are not settled are carried on for so many days. */
const CARRIED_days = 31
const DAY_ms = 86_400_000
/** So often an act is decided again because other pages write at the same time; then it counts as not saved. */
const MOST_TRIES = 6

export interface DayBookDeps {
  readonly clock: Clock
  readonly dayStore: DayStore
  readonly sha256: Sha256
  /** What other devices of the clinic recorded. */
  readonly others?: () => readonly DayEntry[]
  /** Who acts here. */
  readonly by: () => string
}

/** The logs of the days in sight: read, added to by commands, and kept until the disk has them. */
export interface DayBook {
  /** With what is not stored yet. */
  state(): DayState
  /** Days of which something cannot be read. */
  broken(): readonly DayLog[]
  /** Reads what is stored now, other pages' acts among it; rejects as the store does. Answers whether anything came. */
  read(): Promise<boolean>
  /**
   * Decides a command and writes what comes of it. Resolves once that is stored, or when it must not wait any longer;
   * what is not stored is kept, told and tried again. Never rejects.
   */
  act(command: DayCommand, source: Source): Promise<Result<readonly DayEvent[], DayRefusal>>
  /** Other devices have recorded something. */
  othersChanged(): void
  unsaved(): readonly Unsaved[]
  retryNow(): void
  /** Nothing that names a patient stays, but for what is not stored yet. */
  forget(): void
  /** Takes the days before that one off the device. */
  eraseBefore(day: string): Promise<void>
  readonly onChange: (observer: (state: DayState) => void) => () => void
  readonly onUnsaved: (observer: () => void) => () => void
  /** An act that another page's act has made impossible before it was stored. */
  readonly onTurnedDown: (observer: (refusal: DayRefusal) => void) => () => void
}

/** A command that is taken and not stored yet. */
interface Pending {
  readonly command: DayCommand
  readonly source: Source
  readonly by: string
  readonly now: Reading
  readonly day: string
  readonly entries: readonly DayEntry[]
}

const slow = (): StorageError => new StorageError('hanging', 'A write is under way and not done.')
const dayOf = ({ wall_ms, offset_min }: Reading): string =>
  calendarDate({ at_ms: wall_ms, offset_min })

export function createDayBook(deps: DayBookDeps): DayBook {
  const { clock, dayStore, sha256, others = () => [] } = deps
  const changed = createEmitter<DayState>()
  const told = createEmitter<undefined>()
  const turnedDown = createEmitter<DayRefusal>()
  let days: ReadonlyMap<string, DayLog> = new Map()
  /** How many entries of a damaged log were stored when it was read: only part of them could be. */
  const damagedAt = new Map<string, number>()
  let pending: readonly Pending[] = []
  let state = foldDays([])
  let failure: unknown
  let failures = 0
  let attempt: Promise<void> | undefined
  let cancelRetry: (() => void) | undefined
  /** Reading and writing change the same lists, so they take turns. */
  const inTurn = createTurns()

  const first = (): string => {
    const now = clock.read()
    return dayOf({ ...now, wall_ms: now.wall_ms - CARRIED_days * DAY_ms })
  }

  /**
   * The log that is written to: today's, or the latest one where the clock ran ahead, since what comes after an order
   * must stand after it. Where that is damaged a further one of the same day, `2026-11-26.2`, says so and goes on.
   */
  function openLog(now: Reading): string {
    const latest = [...days.keys(), ...pending.map((each) => each.day)].sort().at(-1) ?? ''
    const today = dayOf(now)
    const day = latest.slice(0, today.length) > today ? latest.slice(0, today.length) : today
    let log = day
    for (let n = 2; days.get(log)?.fault; n++) log = `${day}.${n}`
    return log
  }

  /** What a further log of a day begins with. */
  function continued(log: string): readonly DayEvent[] {
    const [day = '', n] = log.split('.')
    if (n === undefined) return []
    const of = n === '2' ? day : `${day}.${Number(n) - 1}`
    const { seq = 0, id = '' } = days.get(of)?.fault ?? {}
    return [{ type: 'logContinued', of, seq, fault: id }]
  }

  const stored = (): DayEntry[] =>
    [...days.keys()].sort().flatMap((day) => days.get(day)?.entries ?? [])

  /** Decided is on what all devices recorded; written is behind this device's own. */
  const foldJoined = (own: readonly DayEntry[]): DayState => foldDays(joinDays(own, others()))

  function show(): void {
    state = foldJoined([...stored(), ...pending.flatMap(({ entries }) => entries)])
    changed.emit(state)
  }

  function lastOf(day: string, before: readonly Pending[]): DayEntry | undefined {
    const waiting = before.filter((each) => each.day === day).flatMap(({ entries }) => entries)
    return waiting.at(-1) ?? days.get(day)?.entries.at(-1)
  }

  /** Seals what a command brings about behind everything of its day. */
  function sealed(
    { source, by, now, day }: Pick<Pending, 'source' | 'by' | 'now' | 'day'>,
    events: readonly DayEvent[],
    before: readonly Pending[],
  ): readonly DayEntry[] {
    let last = lastOf(day, before)
    const all = last ? events : [...continued(day), ...events]
    return all.map((event) => {
      const seq = (last?.seq ?? 0) + 1
      const at = stampAfter(last?.at, now)
      last = sealEntry({ seq, at, by, source, event }, last?.hash ?? NO_PREVIOUS, sha256)
      return last
    })
  }

  /** Reads a day anew and decides what waits again, on what other pages have written meanwhile. */
  async function readAgain(wanted: readonly string[]): Promise<void> {
    const read = await Promise.all(wanted.map((day) => dayStore.load(day)))
    const logs = new Map(days)
    for (const log of read) logs.set(log.day, log)
    days = logs
    const there = new Set(stored().map(({ hash }) => hash))
    const waiting = pending
    pending = []
    for (const each of waiting) {
      // What was given up may have been written all the same.
      if (each.entries.every(({ hash }) => there.has(hash))) continue
      const before = [...stored(), ...pending.flatMap(({ entries }) => entries)]
      const decided = decideDay(foldJoined(before), each.command)
      if (decided.ok) {
        const placed = { ...each, day: openLog(each.now) }
        pending = [...pending, { ...placed, entries: sealed(placed, decided.value, pending) }]
      } else for (const refusal of decided.faults) turnedDown.emit(refusal)
    }
    show()
  }

  async function append(isCurrent: () => boolean): Promise<void> {
    for (let tries = 0; pending.length > 0; tries++) {
      const day = pending[0]?.day ?? ''
      const batch = pending.filter((each) => each.day === day)
      const entries = batch.flatMap((each) => each.entries)
      try {
        const log = days.get(day)
        if (log?.fault) throw new StorageError('movedOn', `Entry ${log.fault.seq}: ${log.fault.id}`)
        await dayStore.append(day, entries)
        if (!isCurrent()) return
        days = new Map(days).set(day, { day, entries: [...(log?.entries ?? []), ...entries] })
        pending = pending.filter((each) => !batch.includes(each))
      } catch (error) {
        const fault = storageFaultOf(error)
        const isElse = fault === 'movedOn' || fault === 'gap'
        if (!isCurrent() || !isElse || tries >= MOST_TRIES) throw error
        await readAgain([day])
      }
    }
  }

  async function tryOnce(): Promise<void> {
    let given = false
    try {
      await within(
        clock,
        GIVE_UP_ms,
        inTurn(() => append(() => !given)),
        slow,
      )
      failures = 0
      const wasTold = failure !== undefined
      failure = undefined
      if (wasTold) told.emit(undefined)
    } catch (error) {
      given = true
      failure = error
      told.emit(undefined)
      const wait_ms = RETRY_ms[Math.min(failures++, RETRY_ms.length - 1)] ?? 0
      cancelRetry = wakeIn(clock, wait_ms, () => void start())
    }
  }

  /** Only what changed is read: what was read stays as it is, since logs only grow. */
  async function readChanged(): Promise<boolean> {
    const ends = await dayStore.ends(first())
    const now = new Set(ends.map(({ day }) => day))
    const gone = [...days.keys()].filter((day) => !now.has(day))
    const more = ends.filter(({ day, entries }) => {
      const known = days.get(day)
      return (known?.fault ? damagedAt.get(day) : known?.entries.length) !== entries
    })
    if (gone.length === 0 && more.length === 0) return false
    days = new Map([...days].filter(([day]) => now.has(day)))
    await readAgain(more.map(({ day }) => day))
    for (const { day, entries } of more) damagedAt.set(day, entries)
    return true
  }

  /** One attempt at a time; it takes with it what comes while it runs. */
  function start(): Promise<void> {
    cancelRetry?.()
    cancelRetry = undefined
    attempt ??= tryOnce().finally(() => {
      attempt = undefined
      if (pending.length > 0 && !cancelRetry) void start()
    })
    return attempt
  }

  return {
    state: () => state,
    broken: () => [...days.values()].filter(({ fault }) => fault !== undefined),
    read: () => inTurn(readChanged),
    act: async (command, source) => {
      const decided = decideDay(state, command)
      if (!decided.ok) return decided
      const now = clock.read()
      const head = { command, source, by: deps.by(), now, day: openLog(now) }
      const entries = sealed(head, decided.value, pending)
      pending = [...pending, { ...head, entries }]
      show()
      const isHanging = failure !== undefined
      const done = start()
      if (!isHanging) await within(clock, LOG_FIRST_ms, done, slow).catch(() => undefined)
      return ok(decided.value)
    },
    othersChanged: show,
    unsaved: () => {
      const [oldest] = pending
      if (!oldest || failure === undefined) return []
      const { wall_ms: since_ms, offset_min } = oldest.now
      const entries = pending.reduce((sum, each) => sum + each.entries.length, 0)
      return [{ since_ms, offset_min, entries, error: failure }]
    },
    retryNow: () => {
      if (pending.length > 0) void start()
    },
    forget: () => {
      days = new Map()
      damagedAt.clear()
      show()
    },
    eraseBefore: async (day) => {
      await dayStore.eraseBefore(day)
      days = new Map([...days].filter(([each]) => each >= day))
      show()
    },
    onChange: changed.observe,
    onUnsaved: told.observe,
    onTurnedDown: turnedDown.observe,
  }
}
