import { defined } from '../../core/basics/defined.ts'
import { fillText } from '../../core/basics/fillText.ts'
import type { Result } from '../../core/basics/result.ts'
import { dropOffs } from '../../core/courier/dropOffs.ts'
import { packToCount, withAll } from '../../core/courier/count.ts'
import { packList } from '../../core/courier/packList.ts'
import { isHere, specimenKey, type PackSpecimen } from '../../core/courier/packSpecimen.ts'
import { sentPacks } from '../../core/courier/sentPacks.ts'
import type { ActDone, MissingTubes } from '../../core/day/dayEvents.ts'
import type { DayAct } from '../../core/day/dayState.ts'
import type { BenchAct } from '../../core/protocol/benchEvents.ts'
import type { Command } from '../../core/protocol/commands.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import { calendarDate } from '../../core/time/format.ts'
import type { AppParts } from '../appDeps.ts'
import { claimActs } from '../bench/claimActs.ts'
import type { Bench } from '../bench/createBench.ts'
import type { Day } from '../day/createDay.ts'
import { createOneAtATime } from '../draw/oneAtATime.ts'
import type { ActSeen } from '../view/benchViewTypes.ts'
import type { CourierActions, PackSaid } from '../view/courierView.ts'
import { readSpecimens } from './readSpecimens.ts'

/** Charted so much later than it was done, an act says its own time in the record. */
const LATER_ms = 1000

interface CourierDeps {
  readonly parts: AppParts
  readonly day: Day
  readonly bench: Pick<Bench, 'notice' | 'refresh' | 'chartRest'>
  /** Adds to the record of a closed draw. */
  readonly add: (drawId: string, command: Command) => Promise<Result<DrawLog>>
}

/** Specimens on their way out: packs, who took them, and what the laboratory says. */
export function createCourier({ parts, day, bench, add }: CourierDeps): CourierActions {
  const { set, get, site, clock, guarded, clinic } = parts
  const { courier: texts } = site.texts
  const once = createOneAtATime()

  async function write(drawId: string, command: Command): Promise<void> {
    const far = clinic.load(drawId)
    if (far) {
      // Its own device charts it when it sees the day's log; until then it stands in the list alone.
      bench.notice(far)
      return
    }
    const added = await add(drawId, command)
    if (added.ok) bench.notice(added.value)
  }

  async function chart(
    act: Pick<DayAct, 'id' | 'act' | 'specimens' | 'at_ms' | 'by'>,
  ): Promise<void> {
    for (const { drawId, tubeIds } of act.specimens) {
      const isLater = clock.read().wall_ms - act.at_ms > LATER_ms
      const done = { ...act.act, tubeIds, act: act.id, ...(isLater && { at_ms: act.at_ms }) }
      await write(drawId, { type: 'benchAct', act: done as BenchAct, actor: act.by })
    }
  }

  /** What the day has and a draw lacks is charted first: the page may have been lost between the two. */
  async function refresh(): Promise<void> {
    await parts.refreshDraws()
    await day.refresh()
    await bench.refresh(true)
    await bench.chartRest()
    const read = await guarded(texts.told.unread, () => readSpecimens(parts, day.book.state().acts))
    if (!read.ok || get().lock.state === 'locked') return
    const { specimens, unread } = read.value
    const { acts } = day.book.state()
    const dropped = dropOffs(specimens, acts)
    set({ courier: { specimens, sent: sentPacks(specimens, acts), dropped, unread } })
  }

  /** What the days' logs have of a draw, also on its way to its own device. */
  const actsOf = (drawId: string): readonly ActSeen[] =>
    day.book
      .state()
      .acts.filter(({ specimens }) => specimens.some((each) => each.drawId === drawId))
      .map(({ id, act: { type }, at_ms, specimens }) => ({ id, type, at_ms, specimens }))

  /** One act on tubes of several draws: first in the day's log, then in each of them. */
  async function act(
    done: ActDone,
    specimens: readonly PackSpecimen[],
    missing?: MissingTubes,
  ): Promise<void> {
    const byDraw = new Map<string, string[]>()
    for (const { drawId, tubeId } of specimens) {
      byDraw.set(drawId, [...(byDraw.get(drawId) ?? []), tubeId])
    }
    const wanted = [...byDraw].map(([drawId, tubeIds]) => ({ drawId, tubeIds }))
    if (wanted.length === 0) return
    // Two desks with the same tubes in sight: each act once.
    const acted = await claimActs(parts, done, wanted, actsOf)
    if (acted.length === 0) return refresh()
    const recorded = await day.recordAct(done, acted, 'touch', missing && { missing })
    if (recorded) await chart({ ...recorded, act: done, specimens: acted })
    await refresh()
  }

  /** What of these is still here by the records of now; what is not is told. */
  async function stillHere(specimens: readonly PackSpecimen[]): Promise<readonly PackSpecimen[]> {
    await refresh()
    const here = new Set(get().courier.specimens.filter(isHere).map(specimenKey))
    const found = specimens.filter((each) => here.has(specimenKey(each)))
    const gone = specimens.length - found.length
    if (gone > 0) set({ trouble: fillText(texts.told.goneMeanwhile, { n: gone }) })
    return found
  }

  /** `D7-20261126-P2K`: counted within the day, with a letter by lot so that two pages never name two packs alike. */
  function newPack(): string {
    const { wall_ms, offset_min } = clock.read()
    const today = calendarDate({ at_ms: wall_ms, offset_min }).replaceAll('-', '')
    const { devicePrefix } = get().settings
    // Also of what was taken back: a name that was given once stays that pack's.
    const names = new Set(
      day.book
        .state()
        .acts.flatMap(({ act: { type, ...done } }) =>
          type === 'courierTook' && 'pack' in done && done.pack !== undefined ? [done.pack] : [],
        ),
    )
    const letter = LETTERS[parts.drawLot() % LETTERS.length] ?? ''
    const named = (n: number): string => `${devicePrefix}-${today}-P${n}${letter}`
    const taken = [...names].filter((name) => name.startsWith(`${devicePrefix}-${today}-P`)).length
    let n = taken + 1
    while (names.has(named(n))) n++
    return named(n)
  }

  /** Nobody can name a tube to an ear, and numbers are too much alike: the pack is said to be complete or not. */
  function packSaid(of: PackSaid): number | undefined {
    const { counted, said } = get().count
    if (of === 'takeBack') {
      if (said?.of !== 'complete') return undefined
      set({ count: { counted: said.before, said: { ...said, of } } })
      return said.pack.specimens.length
    }
    const { specimens } = get().courier
    const pack = packToCount(packList(specimens, site.laboratories, site.catalogue), counted)
    if (!pack) return undefined
    const now = of === 'complete' ? withAll(counted, pack) : counted
    set({ count: { counted: now, said: { of, pack, before: counted } } })
    return pack.specimens.length
  }

  const actions: CourierActions = {
    count: (counted) => set({ count: { counted } }),
    packSaid,
    refresh: () => once(refresh),
    handOver: (pack) =>
      once(async () => {
        const specimens = await stillHere(pack.specimens)
        const done: ActDone = {
          type: 'courierTook',
          courier: pack.courier,
          pack: newPack(),
          ...(pack.laboratory && { laboratory: pack.laboratory.name }),
        }
        const { missing, missingSaidBy } = pack
        const short = missing.length > 0 ? { numbers: missing, by: missingSaidBy } : undefined
        await act(done, specimens, short)
      }),
    dropOff: ({ specimens, where, whom, temperature_C: c }) =>
      once(async () => {
        const place = whom === '' ? where : fillText(texts.carried.droppedTo, { where, whom })
        const measured = c === undefined ? [] : [fillText(texts.carried.measured, { c })]
        const to = [place, ...measured].join(', ')
        await act({ type: 'droppedOff', to }, await stillHere(specimens))
      }),
    received: (specimens, by) =>
      once(() => act({ type: 'labReceived', ...(by && { by }) }, specimens)),
    rejected: (specimens, reason, note) =>
      once(() => act({ type: 'labRejected', reason, ...(note && { note }) }, specimens)),
    takeBack: ({ act: id, specimens }) =>
      once(async () => {
        if (id === undefined) return
        await day.takeBackAct(id, 'touch')
        const actor = day.book.state().acts.find((act) => act.id === id)?.takenBackBy
        for (const drawId of new Set(specimens.map((each) => each.drawId))) {
          await write(drawId, { type: 'takeBackAct', act: id, ...defined({ actor }) })
        }
        await refresh()
      }),
  }
  return actions
}

/** Without those that are taken for a digit or for each other. */
const LETTERS = 'ACDEFHJKLMNPRTUVWXY'
