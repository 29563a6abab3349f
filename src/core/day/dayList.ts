import { defined } from '../basics/defined.ts'
import type { Patient, Priority } from '../order/order.ts'
import { PRIORITIES } from '../order/order.ts'
import { pairKey, type DayState, type ListedItem } from './dayState.ts'
import { likenesses, type Likeness } from './likeness.ts'
import type { ListedOrder } from './listedOrder.ts'
import type { OrderDraw } from './orderDraw.ts'
import { isToDo, orderStatus, type OrderStatus, type StatusOfOrder } from './orderStatus.ts'
import { groupsOf, personKey, whyApart, type ApartReason, type SharingRules } from './together.ts'
import { byPlace, placeOf, type Place } from './whatFirst.ts'

/** An order with how it stands. */
export interface DayItem {
  readonly order: ListedOrder
  readonly status: StatusOfOrder
  readonly item: ListedItem
  /** The patient has to have fasted for it. */
  readonly fasting: boolean
  /** What was listed to make good what this one lacks. */
  readonly followedBy?: string
}

/** Another order that bears the number of one of these. */
export interface ListedTwice {
  readonly order: ListedOrder
  readonly status: OrderStatus
  readonly since_ms: number
  /** Of another patient: one of the two is wrong. */
  readonly isOther: boolean
}

/** Orders of one patient that share a draw. */
export interface DayGroup {
  readonly ids: readonly string[]
  readonly patient: Patient
  readonly invented: boolean
  readonly items: readonly DayItem[]
  readonly status: OrderStatus
  readonly priority: Priority
  readonly place: Place
  readonly fasting: boolean
  readonly drawId?: string
  /** Other orders of the patient that are still to be drawn, each with why it is not drawn with these. */
  readonly apart: readonly { readonly order: ListedOrder; readonly why: ApartReason }[]
  /** Orders of the same number, each with how it stands: one of these listed again, or a number given twice. */
  readonly twice: readonly ListedTwice[]
  /** Patients on the list whom this one could be taken for. */
  readonly alike: readonly { readonly patient: Patient; readonly likeness: Likeness }[]
}

/** The day's list: what is to do, what must happen first above; then what is done, the latest first. */
export interface DayList {
  readonly toDo: readonly DayGroup[]
  readonly done: readonly DayGroup[]
}

/** What of the catalogue the list needs. */
export interface DayRules extends SharingRules {
  isFasting(tests: readonly string[]): boolean
}

/** Something is left to do for an order whose draw did not give all of it, until something was listed for that. */
const lacks = ({ status, followedBy }: DayItem): boolean =>
  followedBy === undefined &&
  (status.status === 'notDrawn' || status.status === 'partlyDrawn' || status.status === 'rejected')

const isOpen = (item: DayItem): boolean =>
  isToDo(item.status.status) || item.status.status === 'inChair' || lacks(item)

/**
 * The list as it stands now.
 * @param draws those that serve orders of the list
 */
export function dayList(
  state: DayState,
  draws: readonly OrderDraw[],
  rules: DayRules,
  now_ms: number,
): DayList {
  const serving = drawsByOrder(draws)
  const follows = new Map<string, string>()
  for (const { order } of state.items.values()) {
    for (const key of madeGood(order)) follows.set(key, order.id)
  }
  const items = [...state.items.values()].map((item): DayItem => {
    const status = orderStatus(item, serving.get(item.order.id) ?? [], now_ms)
    const { order } = item
    return defined({
      order,
      item,
      status,
      fasting: order.fasting === true || rules.isFasting(order.order.tests),
      followedBy: followerOf(status, follows),
    })
  })
  const open = items.filter(isOpen)
  const toDo = open.filter(({ status }) => isToDo(status.status) && status.status !== 'putOff')
  const alike = likenesses(open.map(({ order }) => order.patient))
  const byPerson = groupBy(open, ({ order }) => personKey(order.patient))
  const byNumber = groupBy(items.filter(mayBeTwice), ({ order }) => order.order.orderNumber)
  const byId = new Map(items.map((each) => [each.order.id, each]))
  const shared = groupsOf(
    toDo.map(({ item }) => item),
    state.ties,
    rules,
  ).map((group) => group.flatMap(({ order }) => byId.get(order.id) ?? []))
  const waiting = new Set(toDo)
  const rest = open.filter((each) => !waiting.has(each))
  const inDraws = [...groupBy(rest, ownGroup).values()]
  const finished = [
    ...groupBy(
      items.filter((each) => !isOpen(each)),
      ownGroup,
    ).values(),
  ]
  const group = (own: readonly DayItem[]): DayGroup[] => {
    const [first] = own
    if (!first) return []
    const person = personKey(first.order.patient)
    const others = (byPerson.get(person) ?? []).filter((each) => !own.includes(each))
    const twice = isOpen(first) ? listedTwice(own, byNumber, state) : []
    const known = { twice, alike: alike.get(person) ?? [] }
    return [groupOf(own, first, others, known, state, rules, now_ms)]
  }
  return {
    toDo: [...shared, ...inDraws].flatMap(group).sort((a, b) => byPlace(a.place, b.place)),
    done: finished.flatMap(group).sort((a, b) => sinceOf(b) - sinceOf(a)),
  }
}

const sinceOf = ({ items }: DayGroup): number =>
  Math.max(...items.map(({ status }) => status.since_ms))

/** Those of one draw stand together, the others each for itself. */
const ownGroup = ({ order, status }: DayItem): string => status.drawId ?? order.id

function groupOf(
  items: readonly DayItem[],
  first: DayItem,
  others: readonly DayItem[],
  known: Pick<DayGroup, 'alike' | 'twice'>,
  state: DayState,
  rules: DayRules,
  now_ms: number,
): DayGroup {
  const places = items.map((item) => placeOf(placed(item), now_ms)).sort(byPlace)
  const place = places[0] ?? placeOf(placed(first), now_ms)
  const lead = items.find(({ status }) => status.status === 'called') ?? first
  const priorities = items.map(({ order }) => PRIORITIES.indexOf(order.order.priority))
  return defined({
    ids: items.map(({ order }) => order.id),
    patient: first.order.patient,
    invented: first.order.invented,
    items,
    status: lead.status.status,
    priority: PRIORITIES[Math.max(0, ...priorities)] ?? 'routine',
    place,
    fasting: items.some(({ fasting }) => fasting),
    drawId: first.status.drawId,
    apart: others.flatMap(({ order, status }) => {
      const why = whyApart(first.order, order, state.ties, rules)
      return why && isToDo(status.status) ? [{ order, why }] : []
    }),
    ...known,
  })
}

/** What was ended before it was drawn is no second of anything, and a recollection bears the number of the first. */
const mayBeTwice = ({ order, status }: DayItem): boolean =>
  order.order.orderNumber !== '' &&
  !order.recollects &&
  status.status !== 'cancelled' &&
  status.status !== 'refused'

/** Also orders that are drawn: a file that comes again must not lead to a second draw. */
function listedTwice(
  items: readonly DayItem[],
  byNumber: ReadonlyMap<string, readonly DayItem[]>,
  { bothWanted }: DayState,
): readonly ListedTwice[] {
  const found = new Map<string, ListedTwice>()
  const ids = items.map(({ order }) => order.id)
  for (const [at, own] of items.entries()) {
    if (!mayBeTwice(own)) continue
    for (const { order, status } of byNumber.get(own.order.order.orderNumber) ?? []) {
      const { id, patient } = order
      // Of two that share this draw the second is told of.
      if (ids.slice(0, at + 1).includes(id) || bothWanted.has(pairKey(id, own.order.id))) continue
      const isOther = personKey(patient) !== personKey(own.order.patient)
      found.set(id, { order, status: status.status, since_ms: status.since_ms, isOther })
    }
  }
  return [...found.values()]
}

function placed({ order, item, status, fasting }: DayItem): Parameters<typeof placeOf>[0] {
  return defined({
    status: status.status,
    priority: order.order.priority,
    due: order.due,
    fasting,
    listed_ms: item.listed.at_ms,
    until_ms: item.until_ms,
  })
}

function drawsByOrder(draws: readonly OrderDraw[]): ReadonlyMap<string, readonly OrderDraw[]> {
  const by = new Map<string, OrderDraw[]>()
  for (const draw of draws) {
    for (const id of draw.orderIds) by.set(id, [...(by.get(id) ?? []), draw])
  }
  return by
}

function groupBy<T>(all: readonly T[], keyOf: (one: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>()
  for (const one of all) {
    const own = groups.get(keyOf(one))
    if (own) own.push(one)
    else groups.set(keyOf(one), [one])
  }
  return groups
}

/** What a recollection makes good: tubes of a draw, `D7-20261125-0003/2`, or what was never drawn in it. */
function madeGood({ recollects }: ListedOrder): readonly string[] {
  if (!recollects) return []
  const { drawId, tubeIds } = recollects
  return tubeIds.length === 0 ? [drawId] : tubeIds.map((tubeId) => `${drawId}/${tubeId}`)
}

/** The recollection of everything that was rejected, or of what was not drawn. */
function followerOf(
  { status, drawId, rejected }: StatusOfOrder,
  follows: ReadonlyMap<string, string>,
): string | undefined {
  if (drawId === undefined) return undefined
  if (status === 'rejected') {
    const found = rejected.map(({ tubeId }) => follows.get(`${drawId}/${tubeId}`))
    return found.every((each) => each !== undefined) ? found[0] : undefined
  }
  return follows.get(drawId)
}
