import { fillText } from '../../core/basics/fillText.ts'
import { drawnTwice } from '../../core/day/drawnTwice.ts'
import { dayList } from '../../core/day/dayList.ts'
import type { ActDone, ActedSpecimens, DayEvent, MissingTubes } from '../../core/day/dayEvents.ts'
import { recollectionOf } from '../../core/day/recollection.ts'
import { collectorId } from '../../core/order/collectorId.ts'
import type { DrawLog, Source } from '../../core/protocol/entry.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { StoredDraw } from '../../ports/logStore.ts'
import type { AppParts } from '../appDeps.ts'
import type { DayActions } from '../view/dayViewTypes.ts'
import { createChairNews } from './chairNews.ts'
import { claimOrders } from './claimOrders.ts'
import { createDayActions } from './dayActions.ts'
import { createDayBook, type DayBook } from './dayBook.ts'
import { createDayDraws } from './dayDraws.ts'
import { dayIds } from './dayIds.ts'
import { dayRows } from './dayRows.ts'
import { dayRules } from './dayRules.ts'

/** An act at the bench as the day has it. */
interface RecordedAct {
  readonly id: string
  readonly at_ms: number
  /** Id of who did it, as the day's log has it. */
  readonly by: string
}

/** The day's list: its log, and what a person does with it. */
export interface Day {
  readonly book: DayBook
  readonly actions: DayActions
  /** Reads what other pages did meanwhile and shows it; a disk that does not answer is told. */
  refresh(): Promise<void>
  /** Looks every two seconds, while the list is on the screen. */
  start(): void
  forget(): void
  /** Why no draw may be opened for these orders, in words; where it may, they are claimed for it. */
  claim(orderIds: readonly string[]): Promise<string | undefined>
  /** The record of a draw is about to be erased: its orders do not go back to waiting. */
  noteErased(drawId: string): Promise<void>
  /** One act on tubes of several draws, written before any of them charts it. `undefined` where there are none. */
  recordAct(
    act: ActDone,
    specimens: readonly ActedSpecimens[],
    source: Source,
    more?: { readonly at_ms?: number; readonly missing?: MissingTubes },
  ): Promise<RecordedAct | undefined>
  /** An act was said in error: written before any draw takes it back, so that none charts it later. */
  takeBackAct(id: string, source: Source): Promise<void>
}

/** So often other pages' acts are looked for. */
const BEAT_ms = 2000
/** So often the places on the list are worked out anew: minutes are shown. */
const PLACES_ms = 15_000

export function createDay(
  parts: AppParts,
  makePlan: () => void,
  running: (drawId: string) => DrawLog | undefined,
): Day {
  const { get, set, site, clock, clinic } = parts
  const { day: texts } = site.texts
  const rules = dayRules(site.catalogue)
  const draws = createDayDraws({
    load: async (drawId) => clinic.load(drawId) ?? (await parts.logs.load(drawId)),
  })
  const by = (): string => {
    const { collectorName: name, collectorInitials: initials, devicePrefix } = get().settings
    return collectorId({ name, initials }) || devicePrefix
  }
  const book = createDayBook({ ...parts, by, others: clinic.dayEntries })

  /** Draws of orders in sight. */
  const served = (): readonly StoredDraw[] => {
    const { items } = book.state()
    const { draws: own, others } = get()
    return [...own, ...others].filter(({ listed }) => listed?.some((id) => items.has(id)))
  }

  function show(): void {
    const now_ms = clock.read().wall_ms
    const known = draws.of(served())
    const list = dayList(book.state(), known, rules, now_ms)
    const rows = dayRows(list, get().series, book.state(), now_ms)
    const doubled = drawnTwice(book.state().items.values(), known).map(({ order, drawIds }) => ({
      ...{ order: order.id, orderNumber: order.order.orderNumber, drawIds },
    }))
    set({ day: { ...get().day, rows, done: list.done, doubled, now_ms } })
  }

  /** What a laboratory turned down is put on the list by itself: it is an order that was not fulfilled. */
  async function recollect(): Promise<void> {
    for (const row of get().day.rows) {
      if (row.kind !== 'orders') continue
      const rejected = row.group.items.filter(({ status }) => status.status === 'rejected')
      const again = rejected.length > 0 ? recollectionOf({ items: rejected }) : undefined
      if (again) await book.act({ type: 'listOrders', orders: [again] }, 'app')
    }
  }

  async function refresh(): Promise<void> {
    if (get().lock.state === 'locked') return
    const read = await parts.guarded(texts.told.unread, () => book.read())
    if (!read.ok) return
    const [broken] = book.broken()
    if (broken?.fault) {
      const { day, fault } = broken
      set({ trouble: fillText(texts.told.broken, { day, seq: fault.seq }) })
    }
    show()
    if (await draws.read(served(), show)) show()
    await recollect()
  }

  const inChair = createChairNews({ texts, tell: (trouble) => set({ trouble }) })

  let isLooking = false
  async function look(): Promise<void> {
    const { screen, lock } = get()
    if (isLooking || lock.state === 'locked') return
    if (screen.name === 'draw') {
      isLooking = true
      await book.read().catch(() => false)
      inChair.look(running(screen.drawId), book.state())
      isLooking = false
      return
    }
    if (screen.name !== 'home') return
    isLooking = true
    // A disk that does not answer has been told; the list stays as it was.
    const came = await book.read().catch(() => false)
    const isShown = get().lock.state !== 'locked' && get().screen.name === 'home'
    const isOld = clock.read().wall_ms - get().day.now_ms >= PLACES_ms
    if (isShown && (came || isOld)) show()
    isLooking = false
  }

  function beat(): void {
    void look()
    wakeIn(clock, BEAT_ms, beat)
  }

  book.onChange(show)
  book.onTurnedDown((refusal) => set({ trouble: texts.refusals[refusal] }))

  return {
    book,
    actions: createDayActions(parts, { book, refresh, makePlan }),
    refresh,
    start: beat,
    forget: () => {
      book.forget()
      draws.forget()
    },
    claim: (orderIds) => claimOrders(parts, book, orderIds, texts),
    noteErased: async (drawId) => {
      const { listed = [] } = get().draws.find((draw) => draw.drawId === drawId) ?? {}
      const orderIds = listed.filter((id) => book.state().items.has(id))
      if (orderIds.length > 0) await book.act({ type: 'recordErased', drawId, orderIds }, 'touch')
    },
    recordAct: async (done, specimens, source, more = {}) => {
      const taken = book.state().acts.map(({ id }) => id)
      const [id = ''] = dayIds(parts, 'B', taken, 1)
      const event: DayEvent = { type: 'benchActed', id, act: done, specimens, ...more }
      const now_ms = clock.read().wall_ms
      const told = await book.act(event, source)
      return told.ok ? { id, at_ms: more.at_ms ?? now_ms, by: by() } : undefined
    },
    takeBackAct: async (id, source) => {
      const known = book.state().acts.find((act) => act.id === id)
      if (known && !known.takenBack) await book.act({ type: 'actTakenBack', act: id }, source)
    },
  }
}
