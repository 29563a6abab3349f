import { fillText } from '../../core/basics/fillText.ts'
import type { Result } from '../../core/basics/result.ts'
import { TOLD_MOMENTS, type NotedMoment } from '../../core/order/sitting.ts'
import type { Command } from '../../core/protocol/commands.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import { isToDraw, type Series } from '../../core/record/seriesRecord.ts'
import { readText } from '../../core/text/readText.ts'
import type { AppActions } from '../appApi.ts'
import type { AppParts } from '../appDeps.ts'
import { createOneAtATime } from '../draw/oneAtATime.ts'
import type { RunningDraw } from '../draw/runningDraw.ts'
import type { SeriesBook } from './seriesBook.ts'
import { nextTime_ms, typedTime_ms } from './typedTime.ts'

type SeriesActions = Pick<AppActions, 'tellMoment' | 'leaveOutSittings' | 'goOnWithSeries'>

/** What is told of a series between its draws: each a deliberate act, written into the records it is about. */
export function createSeriesActions(
  parts: AppParts,
  running: RunningDraw,
  book: SeriesBook,
  add: (drawId: string, command: Command) => Promise<Result<DrawLog>>,
): SeriesActions {
  const { get, set, site, clock } = parts
  const once = createOneAtATime()
  const { series: texts } = site.texts.screens

  /** Into the record of the draw, whether it runs here or is closed. Answers whether it was written. */
  async function write(drawId: string, command: Command): Promise<boolean> {
    const log = running.log(drawId)
    if (!log) return (await add(drawId, command)).ok
    await running.dispatch(command, 'touch')
    return true
  }

  async function current(id: string): Promise<Series | undefined> {
    await parts.refreshDraws()
    const series = await book.read(id, get().draws)
    if (!series) set({ trouble: texts.notRead })
    return series
  }

  async function tell(id: string, moment: NotedMoment, typed: string, why: string): Promise<void> {
    const series = await current(id)
    if (!series) return
    const now = clock.read()
    const isAhead = moment === 'nextDose'
    const typed_ms = isAhead ? nextTime_ms(typed, now) : typedTime_ms(typed, now)
    const at_ms = typed === '' && !isAhead ? now.wall_ms : typed_ms
    if (at_ms === undefined) {
      set({ trouble: fillText(texts.noTime, { typed }) })
      return
    }
    const first = series.moments.every((told) => told.moment !== moment)
    const reason = readText(why, 'text')
    const command: Command =
      typed === '' && first && isTold(moment)
        ? { type: moment }
        : { type: 'noteMoment', moment, at_ms, ...(reason.ok && { why: reason.value }) }
    const written = await write(id, command)
    // The later draws that are open or closed already tell it too, or their notes would hold an old due time.
    const others = get().draws.filter(({ series: of, drawId }) => of === id && drawId !== id)
    const again: Command = { ...command, type: 'noteMoment', moment, at_ms }
    if (written) for (const { drawId } of others) await write(drawId, again)
    await parts.refreshDraws()
  }

  async function leaveOut(id: string, keys: readonly string[], why: string): Promise<void> {
    const series = await current(id)
    if (!series) return
    const reason = readText(why, 'text')
    if (!reason.ok || reason.value === '') {
      set({ trouble: texts.whyMissing })
      return
    }
    const sittings = series.sittings
      .filter(({ key, state }) => keys.includes(key) && isToDraw(state))
      .map(({ part: { code, number } }) => ({ code, number }))
    await write(id, { type: 'leaveOut', sittings, why: reason.value })
    await parts.refreshDraws()
  }

  async function goOn(id: string, typedBy: string, typedWhy: string): Promise<void> {
    const series = await current(id)
    if (!series || series.holds.length === 0) return
    const [by, why] = [readText(typedBy, 'name'), readText(typedWhy, 'text')]
    if (!by.ok || !why.ok || by.value === '' || why.value === '') {
      set({ trouble: texts.nameAndWhyMissing })
      return
    }
    const { holds } = series
    const command: Command = { type: 'goOnWithSeries', holds, by: by.value, why: why.value }
    // The first record, and each in which something happened: none of them reads as if the rest still waited.
    for (const drawId of new Set([id, ...holds.map((hold) => hold.drawId)]))
      if (!(await write(drawId, command))) break
    await parts.refreshDraws()
  }

  return {
    goOnWithSeries: (id, by, why) => once(() => goOn(id, by, why)),
    tellMoment: (id, moment, { time = '', why = '' } = {}) =>
      once(() => tell(id, moment, time.trim(), why)),
    leaveOutSittings: (id, keys, why) => once(() => leaveOut(id, keys, why)),
  }
}

const isTold = (moment: NotedMoment): moment is (typeof TOLD_MOMENTS)[number] =>
  TOLD_MOMENTS.some((told) => told === moment)
