import { benchBoard, type BenchRow } from '../../core/bench/benchBoard.ts'
import { benchDues } from '../../core/bench/benchDues.ts'
import { benchSpecimens, type BenchSpecimen } from '../../core/bench/benchSpecimens.ts'
import type { DayAct } from '../../core/day/dayState.ts'
import type { ActDone } from '../../core/day/dayEvents.ts'
import type { Rotor } from '../../core/bench/rcf.ts'
import type { Result } from '../../core/basics/result.ts'
import type { Command } from '../../core/protocol/commands.ts'
import { decide } from '../../core/protocol/decide.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import { replay } from '../../core/protocol/evolve.ts'
import { isClosed } from '../../core/protocol/isClosed.ts'
import { leftAt } from '../../core/protocol/specimenWay.ts'
import { stampAfter } from '../../core/time/stamp.ts'
import type { StoredDraw } from '../../ports/logStore.ts'
import type { AppParts } from '../appDeps.ts'
import { createOneAtATime } from '../draw/oneAtATime.ts'
import type { RunningDraw } from '../draw/runningDraw.ts'
import type { Settings } from '../site/settings.ts'
import {
  NO_BENCH,
  type ActSeen,
  type BenchActions,
  type TubesOfDraw,
} from '../view/benchViewTypes.ts'
import type { Day } from '../day/createDay.ts'
import { actIdsIn, actsIn, joinedActs } from './benchActs.ts'
import { createBenchWatch } from './benchWatch.ts'

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
  readonly add: (drawId: string, command: Command) => Promise<Result<DrawLog>>
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

export const rotorOf = (settings: Settings): Rotor => ({
  places: settings.rotorPlaces,
  radius_mm: settings.rotorRadius_mm,
  angle: settings.rotorAngle,
  most_rpm: settings.rotorMost_rpm,
})

/** The bench: the specimens of every draw of the last days that are still here. */
export function createBench({ parts, running, add, day }: BenchDeps): Bench {
  const { get, set, site, clock, logs } = parts
  const once = createOneAtATime()
  let read: ReadonlyMap<string, Read> = new Map()
  let shown = ''
  const watch = createBenchWatch({ ...parts, drawing: running.drawing, onBeat: show })

  function rowsNow(): readonly BenchRow[] {
    const here = [...read.values()]
      .flatMap(({ specimens }) => specimens)
      .filter(({ way }) => leftAt(way) === undefined)
    return benchBoard(here, clock.read(), site.bench, rotorOf(get().settings))
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
    read = new Map([...read, [log.drawId, readFrom(log)]])
    show()
  }

  let asked = 0
  async function refresh(all = false): Promise<void> {
    const mine = ++asked
    const since_ms = clock.read().wall_ms - ON_BENCH_ms
    const recent = get().draws.filter(({ opened_ms }) => opened_ms >= since_ms)
    const isKnown = ({ drawId, closed }: StoredDraw): boolean => {
      const known = read.get(drawId)
      return known !== undefined && closed && (known.isOver || (!all && isClosedIn(known)))
    }
    const found = await Promise.all(
      recent.map(async (draw): Promise<readonly [string, Read] | undefined> => {
        const known = read.get(draw.drawId)
        if (known && isKnown(draw)) return [draw.drawId, known]
        const log =
          running.log(draw.drawId) ?? (await logs.load(draw.drawId).catch(() => undefined))
        if (!log) return undefined
        return [draw.drawId, readFrom(log)]
      }),
    )
    // The records may have been locked meanwhile, or read once more.
    if (mine !== asked || get().lock.state === 'locked') return
    read = new Map(found.flatMap((each) => (each ? [each] : [])))
    show()
  }

  /** Into the record of the draw, whether it runs here or is closed. */
  async function write(drawId: string, command: Command): Promise<void> {
    if (running.log(drawId)) {
      await running.dispatch(command, 'touch')
      const log = running.log(drawId)
      if (log) notice(log)
      return
    }
    const added = await add(drawId, command)
    if (added.ok) return notice(added.value)
    // Somebody else may have done it: what stands in the record is shown.
    const log = await logs.load(drawId).catch(() => undefined)
    if (log) notice(log)
  }

  async function act(deed: ActDone, specimens: readonly TubesOfDraw[]): Promise<void> {
    if (specimens.length === 0) return
    const recorded = await day.recordAct(deed, specimens, 'touch')
    if (!recorded) return
    for (const { drawId, tubeIds } of specimens) {
      await write(drawId, { type: 'benchAct', act: { ...deed, tubeIds, act: recorded.id } })
    }
  }

  /** Acts that the day has and a draw has not: the page went down between the two. */
  async function chartRest(): Promise<void> {
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
        if (await canBe(drawId, command)) await write(drawId, command)
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

  return {
    actions: {
      act: (deed, specimens) => once(() => act(deed, specimens)),
      takeBack: ({ id, specimens }) =>
        once(async () => {
          for (const { drawId } of specimens) await write(drawId, { type: 'takeBackAct', act: id })
        }),
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
