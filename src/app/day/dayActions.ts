import { fillText } from '../../core/basics/fillText.ts'
import type { DayCommand } from '../../core/day/decideDay.ts'
import type { DayGroup } from '../../core/day/dayList.ts'
import type { ListedOrder } from '../../core/day/listedOrder.ts'
import { isSameOrder } from '../../core/day/isSameOrder.ts'
import { isToDo } from '../../core/day/orderStatus.ts'
import { recollectionOf } from '../../core/day/recollection.ts'
import type { Source } from '../../core/protocol/entry.ts'
import { timeOfDay } from '../../core/time/format.ts'
import type { AppParts } from '../appDeps.ts'
import { createOneAtATime } from '../draw/oneAtATime.ts'
import type { ChosenFile } from '../intake/chosenFile.ts'
import { readDraft } from '../order/readDraft.ts'
import { servedBy } from '../order/servedBy.ts'
import { nextTime_ms } from '../series/typedTime.ts'
import type { DayActions, DayRow } from '../view/dayViewTypes.ts'
import type { DayBook } from './dayBook.ts'
import { dayIds } from './dayIds.ts'
import { demoDay } from './demoDay.ts'
import { listedFromDraft, listedFromReading } from './listedOrders.ts'
import { servedDraft } from './servedDraft.ts'
import { zoneNow } from './zoneNow.ts'

export interface DayActionDeps {
  readonly book: DayBook
  /** Reads and shows the list as it is now. */
  readonly refresh: () => Promise<void>
  readonly makePlan: () => void
}

const NO_PLAN = { plan: undefined, sittings: [], resumed: undefined, approvals: [] } as const

/** What a person does with the day's list. */
export function createDayActions(parts: AppParts, deps: DayActionDeps): DayActions {
  const { get, set, site, clock, intake } = parts
  const { book } = deps
  const { day: texts } = site.texts
  const once = createOneAtATime()

  /** Answers whether it was done; why not is told. */
  async function act(command: DayCommand, source: Source = 'touch'): Promise<boolean> {
    const done = await book.act(command, source)
    if (!done.ok) set({ trouble: done.faults.map((each) => texts.refusals[each]).join(' ') })
    return done.ok
  }

  const freshIds = (n: number): readonly string[] =>
    dayIds(parts, 'L', book.state().items.keys(), n)

  async function list(orders: readonly Omit<ListedOrder, 'id'>[]): Promise<void> {
    if (orders.length === 0) return
    const ids = freshIds(orders.length)
    const listed = orders.map((order, index) => ({ ...order, id: ids[index] ?? '' }))
    await act({ type: 'listOrders', orders: listed })
  }

  async function addDraft(): Promise<void> {
    const { draft } = get()
    const reading = readDraft(draft, parts.today(), site.texts, site.catalogue)
    if (!reading.ok) {
      set({ draftErrors: reading.faults })
      return
    }
    const order = listedFromDraft(reading.value, draft)
    const [id, ...more] = servedBy(draft)?.ids ?? []
    const known = id === undefined || more.length > 0 ? undefined : book.state().items.get(id)
    if (!known) await list([order])
    else {
      const { due, fasting, place, laboratory, from, recollects, requests } = known.order
      const kept = { due, fasting, place, laboratory, from, recollects, requests }
      const given = Object.fromEntries(Object.entries(kept).filter(([, value]) => value))
      await act({ type: 'orderChanged', order: { ...order, ...given, id: known.order.id } })
    }
    set({ screen: { name: 'home' } })
    await deps.refresh()
  }

  async function addFiles(files: readonly ChosenFile[]): Promise<void> {
    const orders: Omit<ListedOrder, 'id'>[] = []
    const notTaken: string[] = []
    const refused = (file: string, where: string, faults: readonly string[]): void => {
      const text = where === '' ? texts.told.fileRefused : texts.told.pieceRefused
      notTaken.push(fillText(text, { file, where, reasons: faults.join(' ') }))
    }
    const zone = zoneNow(clock)
    for (const file of files) {
      const read = await intake.orders(file, { today: parts.today(), zone })
      if (!read.ok) {
        refused(file.name, '', read.faults)
        continue
      }
      const from = file.name.toLowerCase().endsWith('.csv') ? 'csv' : 'fhir'
      for (const { where, reading, with: more } of read.value) {
        if (!reading.ok) {
          refused(file.name, where, reading.faults)
          continue
        }
        const order = listedFromReading(reading.value, from, more)
        // The same file once more must not double the list; what differs in anything is for a person to judge.
        const waiting = [...toDraw(), ...orders]
        if (waiting.some((known) => isSameOrder(known, order))) {
          notTaken.push(fillText(texts.told.sameAgain, { file: file.name, where }))
        } else orders.push(order)
      }
    }
    await list(orders)
    set({ day: { ...get().day, notTaken: [...get().day.notTaken, ...notTaken] } })
  }

  /** Orders that are still to be drawn. */
  const toDraw = (): readonly ListedOrder[] =>
    groups().flatMap(({ items }) =>
      items.flatMap(({ order, status }) => (isToDo(status.status) ? [order] : [])),
    )

  const groups = (): readonly DayGroup[] =>
    get().day.rows.flatMap((row) => (row.kind === 'orders' ? [row.group] : []))

  const groupWith = (orderIds: readonly string[]): DayGroup | undefined =>
    [...groups(), ...get().day.done].find(({ ids }) => orderIds.every((id) => ids.includes(id)))

  function fill(orderIds: readonly string[]): boolean {
    const { items } = book.state()
    const [first, ...rest] = orderIds.flatMap((id) => items.get(id)?.order ?? [])
    if (!first) {
      set({ trouble: texts.refusals.notListed })
      return false
    }
    const draft = servedDraft([first, ...rest], site)
    set({ ...NO_PLAN, draft, draftErrors: [], screen: { name: 'order' } })
    return true
  }

  async function begin(orderIds: readonly string[]): Promise<void> {
    await parts.refreshDraws()
    await deps.refresh()
    const running = [...get().draws, ...get().others].find(
      ({ closed, listed }) => !closed && listed?.some((id) => orderIds.includes(id)),
    )
    if (running) {
      set({ trouble: texts.told.inChair })
      return
    }
    const ended = orderIds.some((id) =>
      ['refused', 'cancelled', 'erased'].includes(book.state().items.get(id)?.standing ?? ''),
    )
    if (ended) set({ trouble: texts.refusals.ended })
    // Questions and what is missing keep it on the form.
    else if (fill(orderIds)) deps.makePlan()
  }

  /** A sample of a series that came first and was told of: asked for again, the next order is called all the same. */
  let toldSitting = ''

  /** A further sample of a series belongs to no order that could be called: it is told, and nobody called over it. */
  function sittingFirst(row: DayRow): boolean {
    if (row.kind !== 'sitting' || row.place.reason === 'notYet') return false
    const { series, key, name, point, place } = row.sitting
    const told = `${series} ${key}`
    if (told === toldSitting) return false
    toldSitting = told
    const { due_ms } = place
    const at =
      due_ms === undefined
        ? ''
        : timeOfDay({ at_ms: due_ms, offset_min: clock.offsetAt_min(due_ms) })
    const what = fillText(texts.sitting, { name, point })
    set({ trouble: fillText(texts.told.sittingNext, { what, at }) })
    return true
  }

  async function callNext(source: Source = 'touch'): Promise<DayRow | undefined> {
    await deps.refresh()
    const { wall_ms } = clock.read()
    for (const row of get().day.rows) {
      if (sittingFirst(row)) return row
      if (row.kind === 'sitting') continue
      const { group } = row
      const isFree = group.status === 'waiting' && group.place.reason !== 'notYet'
      const [id] = group.ids
      if (!isFree || id === undefined) continue
      // Another page that calls at this moment calls the one after.
      const isOurs = await parts.logStore.claim(`call ${id}`, wall_ms).catch(() => true)
      if (!isOurs) continue
      const called = await act({ type: 'orderCalled', orderIds: group.ids }, source)
      toldSitting = ''
      return called ? row : undefined
    }
    toldSitting = ''
    set({ trouble: texts.told.nobodyNext })
    return undefined
  }

  async function putOff(orderIds: readonly string[], time: string, why: string): Promise<void> {
    const typed = time.trim()
    const until_ms = typed === '' ? undefined : nextTime_ms(typed, clock.read())
    if (typed !== '' && until_ms === undefined) {
      set({ trouble: fillText(texts.told.noTime, { typed }) })
      return
    }
    const until = until_ms === undefined ? {} : { until_ms }
    await act({ type: 'orderPutOff', orderIds, why: why.trim(), ...until })
  }

  async function listRest(orderIds: readonly string[]): Promise<void> {
    const group = groupWith(orderIds)
    const rest = group && recollectionOf(group)
    if (rest) await act({ type: 'listOrders', orders: [rest] })
  }

  const doing =
    (command: (orderIds: readonly string[]) => DayCommand) =>
    async (orderIds: readonly string[]): Promise<void> => {
      await act(command(orderIds))
    }

  return {
    addDraft: () => once(addDraft),
    addFiles: (files) => once(() => addFiles(files)),
    addDemoDay: () => once(() => list(demoDay(site, clock.read()))),
    dismissNotTaken: () => set({ day: { ...get().day, notTaken: [] } }),
    call: doing((orderIds) => ({ type: 'orderCalled', orderIds })),
    callNext,
    begin: (orderIds) => once(() => begin(orderIds)),
    edit: (orderId) => void fill([orderId]),
    notFound: doing((orderIds) => ({ type: 'orderNotFound', orderIds })),
    putOff,
    refuse: async (orderIds, why) => {
      await act({ type: 'orderRefused', orderIds, ...(why.trim() !== '' && { why: why.trim() }) })
    },
    cancel: async (orderIds, by, why) => {
      await act({ type: 'orderCancelled', orderIds, by: by.trim(), why: why.trim() })
    },
    reopen: async (orderIds, why) => {
      // Taken up again after these draws, and not before: clocks alone must not say which it was.
      const after = get()
        .draws.filter(({ closed, listed }) => closed && listed?.some((id) => orderIds.includes(id)))
        .map(({ drawId }) => drawId)
      await act({
        type: 'orderReopened',
        orderIds,
        why: why.trim(),
        ...(after.length > 0 && { after }),
      })
    },
    join: doing((orderIds) => ({ type: 'ordersTogether', orderIds })),
    part: doing((orderIds) => ({ type: 'ordersApart', orderIds })),
    keepBoth: doing((orderIds) => ({ type: 'ordersBothWanted', orderIds })),
    listRest: (orderIds) => once(() => listRest(orderIds)),
  }
}
