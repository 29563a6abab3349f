import { benchBoard, type BenchRow } from '../../core/bench/benchBoard.ts'
import { benchDues } from '../../core/bench/benchDues.ts'
import { benchSpecimens, type BenchSpecimen } from '../../core/bench/benchSpecimens.ts'
import type { DayAct } from '../../core/day/dayState.ts'
import type { ActDone } from '../../core/day/dayEvents.ts'
import type { Result } from '../../core/basics/result.ts'
import type { Command } from '../../core/protocol/commands.ts'
import { decide } from '../../core/protocol/decide.ts'
import type { DrawLog, Source } from '../../core/protocol/entry.ts'
import { replay } from '../../core/protocol/evolve.ts'
import { isClosed } from '../../core/protocol/isClosed.ts'
import { leftAt, wayElapsed } from '../../core/protocol/specimenWay.ts'
import { stampAfter, type Reading, type Stamp } from '../../core/time/stamp.ts'
import type { StoredDraw } from '../../ports/logStore.ts'
import type { AppParts } from '../appDeps.ts'
import { createOneAtATime } from '../draw/oneAtATime.ts'
import type { RunningDraw } from '../draw/runningDraw.ts'
import {
  NO_BENCH,
  type ActSeen,
  type BenchActions,
  type SaidOfBench,
  type TubesOfDraw,
} from '../view/benchViewTypes.ts'
import type { Day } from '../day/createDay.ts'
import { actIdsIn, actsIn, joinedActs } from './benchActs.ts'
import { createBenchByVoice } from './benchByVoice.ts'
import { createBenchWatch } from './benchWatch.ts'
import { rotorOf } from './rotorHere.ts'

/** Specimens of draws opened longer ago are no longer on the bench. */
const ON_BENCH_ms = 3 * 86_400_000
/** So many of the last acts can be taken back. */
const MOST_ACTS = 6

export interface Bench {
  readonly actions: BenchActions
  /** Reads the draws that may still have specimens here. @param all also those that were read before */
  refresh(all?: boolean): Promise<void>
  /** The log of a draw as it now stands. */
  notice(log: DrawLog): void
  /** Charts what the day has and a draw has not. */
  chartRest(): Promise<void>
  lookNow(): void
  /** Nothing that names a patient stays; what is due is told all the same. */
  forget(): void
}

interface BenchDeps {
  readonly parts: AppParts
  readonly running: Pick<RunningDraw, 'log' | 'dispatch' | 'drawing'>
  /** Writes into the record of a closed draw. */
  readonly add: (drawId: string, command: Command, source: Source) => Promise<Result<DrawLog>>
  /** The acts of the last days, and how one is written before any draw charts it. */
  readonly day: Pick<Day, 'recordAct' | 'refresh'> & {
    readonly book: { state(): { readonly acts: readonly DayAct[] } }
  }
}

/** One draw as it was read last. */
interface Read {
  readonly specimens: readonly BenchSpecimen[]
  readonly acts: readonly ActSeen[]
  /** Ids of every act in its log, also of those taken back. */
  readonly charted: ReadonlySet<string>
  /** All have left: it is not read again. */
  readonly isOver: boolean
}

/** The bench: the specimens of every draw of the last days that are still here. */
export function createBench({ parts, running, add, day }: BenchDeps): Bench {
  const { get, set, site, clock, logs } = parts
  const once = createOneAtATime()
  let read: ReadonlyMap<string, Read> = new Map()
  let shown = ''
  const watch = createBenchWatch({ ...parts, drawing: running.drawing, onBeat: show })

  function rowsNow(): readonly BenchRow[] {
    const now = clock.read()
    const here = [...read.values()]
      .flatMap(({ specimens }) => specimens)
      .filter(({ way, off }) => leftAt(way) === undefined && isOfLate(off, now))
    return benchBoard(here, now, site.bench, rotorOf(get().settings))
  }

  /** Redraws only what reads otherwise than before: whose turn each is, and its minutes. */
  function show(): void {
    if (get().lock.state === 'locked') return
    const rows = rowsNow()
    const acts = joinedActs([...read.values()].flatMap((each) => each.acts)).slice(0, MOST_ACTS)
    const now_ms = clock.read().wall_ms
    const key = [
      Math.floor(now_ms / 60_000),
      ...rows.map(keyOf),
      ...acts.map(({ id }) => id),
      JSON.stringify(rotorOf(get().settings)),
    ].join('|')
    const real = rows.filter(({ specimen }) => !specimen.invented)
    const practice = rows.filter(({ specimen }) => specimen.invented)
    watch.watch(benchDues(real))
    if (key === shown) return
    shown = key
    set({ bench: { rows: real, practice, now_ms, acts } })
  }

  function readFrom(log: DrawLog): Read {
    const specimens = benchSpecimens(log, site.catalogue)
    const isOver = specimens.every(({ isOpen, way }) => !isOpen && leftAt(way) !== undefined)
    return { specimens, acts: actsIn(log), charted: actIdsIn(log), isOver: isOver && isClosed(log) }
  }

  function notice(log: DrawLog): void {
    const now = readFrom(log)
    read = new Map([...read, [log.drawId, now]])
    noticed.set(log.drawId, now)
    show()
  }

  let asked = 0
  /** What came in while the draws are read is newer than what was read. */
  let noticed = new Map<string, Read>()
  let reading: Promise<void> = Promise.resolve()
  const refresh = (all = false): Promise<void> => (reading = readDraws(all))

  async function readDraws(all: boolean): Promise<void> {
    const mine = ++asked
    noticed = new Map()
    const since_ms = clock.read().wall_ms - ON_BENCH_ms
    const recent = get().draws.filter(({ opened_ms }) => opened_ms >= since_ms)
    const isKnown = ({ drawId, closed }: StoredDraw): boolean => {
      const known = read.get(drawId)
      return known !== undefined && closed && (known.isOver || (!all && isClosedIn(known)))
    }
    const found = await aFewAtATime(
      recent,
      async (draw): Promise<readonly [string, Read] | undefined> => {
        const known = read.get(draw.drawId)
        if (known && isKnown(draw)) return [draw.drawId, known]
        const log =
          running.log(draw.drawId) ?? (await logs.load(draw.drawId).catch(() => undefined))
        if (!log) return undefined
        return [draw.drawId, readFrom(log)]
      },
    )
    // The records may have been locked meanwhile, or read once more.
    if (mine !== asked || get().lock.state === 'locked') return
    read = new Map([...found.flatMap((each) => (each ? [each] : [])), ...noticed])
    show()
  }

  /** Into the record of the draw, whether it runs here or is closed. */
  async function write(drawId: string, command: Command, source: Source): Promise<void> {
    if (running.log(drawId)) {
      await running.dispatch(command, source)
      const log = running.log(drawId)
      if (log) notice(log)
      return
    }
    const added = await add(drawId, command, source)
    // Somebody else may have done it: what stands in the record is shown.
    const log = added.ok ? added.value : await logs.load(drawId).catch(() => undefined)
    if (log) notice(log)
  }

  /** Tubes of a draw for which an act counts. */
  const charted = (drawId: string, id: string): number =>
    (read.get(drawId)?.acts ?? [])
      .filter((each) => each.id === id)
      .flatMap(({ specimens }) => specimens.flatMap(({ tubeIds }) => tubeIds)).length

  /** Answers for how many tubes it stands in their draws. */
  async function act(
    deed: ActDone,
    specimens: readonly TubesOfDraw[],
    source: Source,
  ): Promise<number> {
    if (specimens.length === 0) return 0
    const recorded = await day.recordAct(deed, specimens, source)
    if (!recorded) return 0
    let done = 0
    for (const { drawId, tubeIds } of specimens) {
      const command: Command = { type: 'benchAct', act: { ...deed, tubeIds, act: recorded.id } }
      await write(drawId, command, source)
      done += charted(drawId, recorded.id)
    }
    return done
  }

  async function takeBack({ id, specimens }: ActSeen, source: Source): Promise<number> {
    let done = 0
    for (const { drawId } of specimens) {
      const before = charted(drawId, id)
      await write(drawId, { type: 'takeBackAct', act: id }, source)
      done += before - charted(drawId, id)
    }
    return done
  }

  /** Acts that the day has and a draw has not: the page went down between the two. */
  async function chartRest(): Promise<void> {
    await reading
    const since_ms = clock.read().wall_ms - ON_BENCH_ms
    for (const { id, act: deed, specimens, at_ms } of day.book.state().acts) {
      if (at_ms < since_ms) continue
      for (const { drawId, tubeIds } of specimens) {
        const known = read.get(drawId)
        const isOpen = known?.specimens.some((each) => each.isOpen)
        if (!known || known.charted.has(id) || isOpen) continue
        const command: Command = {
          type: 'benchAct',
          act: { ...deed, tubeIds, act: id, at_ms },
        }
        if (await canBe(drawId, command)) await write(drawId, command, 'touch')
      }
    }
  }

  /** What cannot be true of a draw any more is left, and nobody is asked about it at every start. */
  async function canBe(drawId: string, command: Command): Promise<boolean> {
    const log = await logs.load(drawId).catch(() => undefined)
    if (!log) return false
    const state = replay(log.entries)
    const now = stampAfter(state.last.at, clock.read())
    return decide(state, command, now).kind === 'record'
  }

  const voiced = createBenchByVoice({
    parts,
    act: (deed, specimens) => act(deed, specimens, 'voice'),
    takeBack: (done) => takeBack(done, 'voice'),
  })

  return {
    actions: {
      act: (deed, specimens) => once(async () => void (await act(deed, specimens, 'touch'))),
      takeBack: (done) => once(async () => void (await takeBack(done, 'touch'))),
      byVoice: async (said) => {
        let answer: SaidOfBench = 'none'
        await once(async () => {
          await parts.refreshDraws()
          await refresh(true)
          answer = await voiced(said)
        })
        return answer
      },
    },
    refresh,
    notice,
    chartRest,
    lookNow: () => watch.lookNow(),
    forget: () => {
      asked++
      read = new Map()
      shown = ''
      set({ bench: NO_BENCH })
    },
  }
}

/** So many logs at once, so that the page answers a press between them. */
const AT_ONCE_n = 8

async function aFewAtATime<T, R>(
  all: readonly T[],
  work: (each: T) => Promise<R>,
): Promise<readonly R[]> {
  const done: R[] = []
  for (let at = 0; at < all.length; at += AT_ONCE_n) {
    done.push(...(await Promise.all(all.slice(at, at + AT_ONCE_n).map(work))))
  }
  return done
}

/** Drawn within the last days for sure: a clock that was set forward takes nothing off the bench. */
const isOfLate = (off: Stamp, now: Reading): boolean =>
  wayElapsed(off, { ...now, at_ms: now.wall_ms }).least_ms < ON_BENCH_ms

const isClosedIn = ({ specimens }: Read): boolean => specimens.every(({ isOpen }) => !isOpen)

const keyOf = ({ specimen, step, isDue, limits }: BenchRow): string => {
  const { drawId, tubeId, number, way } = specimen
  return [
    drawId,
    tubeId,
    number,
    step,
    isDue,
    way.spins.length,
    way.stored?.where,
    way.bagged?.bag,
    way.aliquots?.portions,
    limits[0]?.isOver,
  ].join(' ')
}
