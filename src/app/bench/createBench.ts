import { benchBoard, type BenchRow } from '../../core/bench/benchBoard.ts'
import { benchDues } from '../../core/bench/benchDues.ts'
import { benchSpecimens, type BenchSpecimen } from '../../core/bench/benchSpecimens.ts'
import { keepRows } from '../../core/bench/keepRows.ts'
import { layActsOver } from '../../core/day/layActsOver.ts'
import { createLooks } from '../../core/basics/looks.ts'
import { createSeal } from '../../core/log/seal.ts'
import type { DayAct } from '../../core/day/dayState.ts'
import type { ActDone } from '../../core/day/dayEvents.ts'
import type { Result } from '../../core/basics/result.ts'
import type { BenchAct } from '../../core/protocol/benchEvents.ts'
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
import { aFewAtATime } from './aFewAtATime.ts'
import { actIdsIn, actsIn, joinedActs } from './benchActs.ts'
import { claimActs } from './claimActs.ts'
import { createReadOver } from './readOver.ts'
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
  /** Other devices have recorded something. */
  othersChanged(): void
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
  readonly day: Pick<Day, 'recordAct' | 'takeBackAct' | 'refresh'> & {
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
  /** Tubes with an act that the device of the draw has not charted yet. */
  readonly uncharted?: ReadonlySet<string>
}

/** The bench: the specimens of every draw of the last days that are still here. */
export function createBench({ parts, running, add, day }: BenchDeps): Bench {
  const { get, set, site, clock, logs, clinic } = parts
  const seal = createSeal(parts.sha256)
  const once = createOneAtATime()
  let read: ReadonlyMap<string, Read> = new Map()
  let board: readonly BenchRow[] = []
  let shown = { board, rest: '' }
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
    board = keepRows(board, rowsNow())
    const uncharted = [...read].flatMap(([drawId, each]) =>
      [...(each.uncharted ?? [])].map((tubeId) => `${drawId} ${tubeId}`),
    )
    const acts = joinedActs([...read.values()].flatMap((each) => each.acts)).slice(0, MOST_ACTS)
    const now_ms = clock.read().wall_ms
    const rest = [
      Math.floor(now_ms / 60_000),
      ...acts.map(({ id }) => id),
      ...uncharted,
      JSON.stringify(rotorOf(get().settings)),
    ].join('|')
    const real = board.filter(({ specimen }) => !specimen.invented)
    const practice = board.filter(({ specimen }) => specimen.invented)
    watch.watch(benchDues(real))
    if (board === shown.board && rest === shown.rest) return
    shown = { board, rest }
    set({ bench: { rows: real, practice, now_ms, acts, uncharted } })
  }

  function readFrom(log: DrawLog): Read {
    const specimens = benchSpecimens(log, site.catalogue)
    const isOver = specimens.every(({ isOpen, way }) => !isOpen && leftAt(way) !== undefined)
    return { specimens, acts: actsIn(log), charted: actIdsIn(log), isOver: isOver && isClosed(log) }
  }

  /** A draw of another device, with what was done here and is not charted there yet. */
  const readOver = createReadOver((log) => {
    const acts = day.book.state().acts.filter(({ takenBack }) => !takenBack)
    const over = layActsOver(log, acts, clock.read(), seal)
    return { ...readFrom(over.log), charted: actIdsIn(log), isOver: false, uncharted: over.laid }
  }, day.book)

  function notice(log: DrawLog): void {
    const now = clinic.load(log.drawId) ? readOver.of(log) : readFrom(log)
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
    const { draws, others } = get()
    const recent = [...draws, ...others].filter(({ opened_ms }) => opened_ms >= since_ms)
    const isKnown = ({ drawId, closed }: StoredDraw): boolean => {
      const known = read.get(drawId)
      return known !== undefined && closed && (known.isOver || (!all && isClosedIn(known)))
    }
    const found = await aFewAtATime(
      clock,
      recent,
      async (draw): Promise<readonly [string, Read] | undefined> => {
        const far = clinic.load(draw.drawId)
        if (far) return [draw.drawId, readOver.of(far)]
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
    const far = clinic.load(drawId)
    if (far) {
      // Its own device charts it; until then it stands on the board alone.
      notice(far)
      return
    }
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
    const actsOf = (drawId: string): readonly ActSeen[] => read.get(drawId)?.acts ?? []
    const free = await claimActs(parts, deed, specimens, actsOf)
    if (free.length === 0) return 0
    const recorded = await day.recordAct(deed, free, source)
    if (!recorded) return 0
    let done = 0
    for (const { drawId, tubeIds } of free) {
      const act: BenchAct = { ...deed, tubeIds, act: recorded.id }
      const command: Command = { type: 'benchAct', act, actor: recorded.by }
      await write(drawId, command, source)
      done += charted(drawId, recorded.id)
    }
    return done
  }

  async function takeBack({ id, specimens }: ActSeen, source: Source): Promise<number> {
    let done = 0
    await day.takeBackAct(id, source)
    const actor = takenBackBy(id)
    for (const { drawId } of specimens) {
      const before = charted(drawId, id)
      await write(drawId, { type: 'takeBackAct', act: id, ...actor }, source)
      done += before - charted(drawId, id)
    }
    return done
  }

  /** Acts that the day has and a draw has not: the page went down between the two. */
  async function chartRest(): Promise<void> {
    await reading
    const since_ms = clock.read().wall_ms - ON_BENCH_ms
    for (const { id, act: deed, specimens, at_ms, by } of day.book.state().acts) {
      if (at_ms < since_ms) continue
      for (const { drawId, tubeIds } of specimens) {
        if (clinic.load(drawId)) continue
        const known = read.get(drawId)
        if (!known || known.specimens.some((each) => each.isOpen)) continue
        const isBack = isTakenBack(id)
        if (isBack ? charted(drawId, id) === 0 : known.charted.has(id)) continue
        const command: Command = isBack
          ? { type: 'takeBackAct', act: id, ...takenBackBy(id) }
          : { type: 'benchAct', act: { ...deed, tubeIds, act: id, at_ms }, actor: by }
        if (await canBe(drawId, command)) await write(drawId, command, 'touch')
      }
    }
  }

  /** Who said that an act was said in error. */
  const takenBackBy = (id: string): { readonly actor?: string } => {
    const by = day.book.state().acts.find((act) => act.id === id)?.takenBackBy
    return by === undefined ? {} : { actor: by }
  }

  /** Asked each time: it may be taken back while the rest of it is charted. */
  const isTakenBack = (id: string): boolean =>
    day.book.state().acts.some((act) => act.id === id && act.takenBack)

  /** What cannot be true of a draw any more is left, and nobody is asked about it at every start. */
  async function canBe(drawId: string, command: Command): Promise<boolean> {
    const log = await logs.load(drawId).catch(() => undefined)
    if (!log) return false
    const state = replay(log.entries)
    const now = stampAfter(state.last.at, clock.read())
    return decide(state, command, now).kind === 'record'
  }

  /** What others did is shown, and what they did to tubes of this device's draws is charted in them, once. */
  const follow = createLooks(async () => {
    await refresh()
    if (get().lock.state !== 'locked') await chartRest()
  })

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
    othersChanged: follow,
    chartRest,
    lookNow: () => watch.lookNow(),
    forget: () => {
      asked++
      read = new Map()
      board = []
      shown = { board, rest: '' }
      readOver.forget()
      set({ bench: NO_BENCH })
    },
  }
}

/** Drawn within the last days for sure: a clock that was set forward takes nothing off the bench. */
const isOfLate = (off: Stamp, now: Reading): boolean =>
  wayElapsed(off, { ...now, at_ms: now.wall_ms }).least_ms < ON_BENCH_ms

const isClosedIn = ({ specimens }: Read): boolean => specimens.every(({ isOpen }) => !isOpen)
