import { fillText } from '../../core/basics/fillText.ts'
import { isRecord } from '../../core/basics/isRecord.ts'
import type { DayItem } from '../../core/day/dayList.ts'
import type { Standing } from '../../core/day/dayState.ts'
import type { ListedOrder, OrderRequest } from '../../core/day/listedOrder.ts'
import { resourceOf, typeOf } from '../../core/fhir/entryResource.ts'
import { requestId, requestsAt } from '../../core/handOver/requestId.ts'
import type { Json, ServerAnswer } from '../../core/handOver/serverAnswer.ts'
import type { RecordServer } from '../../ports/recordServer.ts'
import type { AppParts } from '../appDeps.ts'
import type { DayBook } from '../day/dayBook.ts'
import { dayIds } from '../day/dayIds.ts'
import { testInfo } from '../record/testInfo.ts'
import { zoneNow } from '../day/zoneNow.ts'
import { listedFromReading } from '../day/listedOrders.ts'
import { fileOf } from '../intake/chosenFile.ts'
import {
  askedOf,
  drawnElsewhere,
  leftHere,
  readElsewhere,
  withQuestions,
  type Elsewhere,
} from './elsewhere.ts'
import { readByIds, readPages } from './readPages.ts'
import { withoutRequests } from './withoutRequests.ts'

export interface FetchDeps {
  readonly parts: Pick<AppParts, 'intake' | 'clock' | 'today' | 'get' | 'drawLot' | 'site'>
  readonly book: Pick<DayBook, 'state' | 'act'>
  readonly server: RecordServer
  readonly mostPages: number
  /** Orders that this device still has to do something for. */
  readonly toDo: () => readonly DayItem[]
}

/** What fetching came to. */
export interface Fetched {
  readonly listed_n: number
  /** Orders that devices with a list of their own have drawn: they are not listed here. */
  readonly elsewhere_n: number
  /** What was not taken or has changed there, each in a sentence. */
  readonly told: readonly string[]
  /** Why nothing could be fetched. */
  readonly trouble?: Exclude<ServerAnswer, { readonly kind: 'done' }>
}

/**
 * Fetches orders into the day's list by the same checks as those of a file, each taken or refused by itself, and looks
 * what has become of those that were fetched before.
 * @param query what of the record server is for this place, such as `location=Location/3`
 */
export async function fetchOrders(deps: FetchDeps, query: string): Promise<Fetched> {
  const ended = await lookAfter(deps)
  if ('trouble' in ended) return ended
  const search = `ServiceRequest?status=active&_include=ServiceRequest:subject&_count=100`
  const pages = await readPages(deps.server, query ? `${search}&${query}` : search, deps.mostPages)
  if (pages.kind === 'not') return { ...NOTHING, told: ended.told, trouble: pages.answer }
  const { told: texts } = deps.parts.site.texts.handOver
  const more = pages.isWhole ? [] : [texts.morePages]
  const listed = await listNew(deps, [...pages.entries, ...(await patientsOf(deps, pages.entries))])
  return { ...listed, told: [...ended.told, ...listed.told, ...more] }
}

const NOTHING: Fetched = { listed_n: 0, elsewhere_n: 0, told: [] }

/** Patients that did not come along: a server need not know `_include` (R4, search.html). */
async function patientsOf(
  { server, mostPages }: FetchDeps,
  entries: readonly Json[],
): Promise<readonly Json[]> {
  const there = new Set(
    entries.filter((entry) => typeOf(entry) === 'Patient').map((entry) => resourceOf(entry)['id']),
  )
  const wanted = entries.filter(isRequest).flatMap((entry) => {
    const subject = resourceOf(entry)['subject']
    const reference = isRecord(subject) ? subject['reference'] : undefined
    const id = /(?:^|\/)Patient\/([A-Za-z0-9.-]{1,64})/.exec(String(reference))?.[1]
    return id === undefined || there.has(id) ? [] : [id]
  })
  const found: Json[] = []
  for await (const pages of readByIds(server, 'Patient', [...new Set(wanted)], mostPages)) {
    if (pages.kind === 'read') found.push(...pages.entries)
  }
  return found
}

async function listNew(deps: FetchDeps, entries: readonly Json[]): Promise<Fetched> {
  const { parts, book, server } = deps
  const { told: texts } = parts.site.texts.handOver
  const known = new Set(
    [...book.state().items.values()].flatMap(({ order }) =>
      (order.requests ?? []).map(({ url }) => url),
    ),
  )
  // Each page brings its patients along, so that one may come more than once.
  const placed = new Map(
    entries.map((entry) => {
      const fullUrl = urlOf(entry, server.address)
      return [fullUrl, { ...entry, fullUrl }] as const
    }),
  )
  const fresh = [...placed.values()].filter(
    (entry) => typeOf(entry) === 'Patient' || (isRequest(entry) && !known.has(entry.fullUrl)),
  )
  if (!fresh.some(isRequest)) return NOTHING
  const bundle = { resourceType: 'Bundle', type: 'collection', entry: fresh }
  const now = { today: parts.today(), zone: zoneNow(parts.clock) }
  const read = await parts.intake.orders(fileOf('orders', JSON.stringify(bundle)), now)
  const refused = (where: string, reasons: readonly string[]): string =>
    fillText(texts.refused, { where, reasons: reasons.join(' ') })
  if (!read.ok) return { ...NOTHING, told: [refused('', read.faults)] }
  const ids = fresh.filter(isRequest).map((entry) => String(resourceOf(entry)['id']))
  const elsewhere = await readElsewhere(deps, ids)
  const orders: Omit<ListedOrder, 'id'>[] = []
  const told: string[] = []
  let elsewhere_n = 0
  for (const { where, reading, with: more, requests = [] } of read.value) {
    if (!reading.ok) {
      told.push(refused(where, reading.faults))
      continue
    }
    const came = listedFromReading(reading.value, 'fhir', more)
    const order = { ...came, requests: requestsOf(requests, came.order.tests) }
    const left = leftHere(order, elsewhere, parts.site.texts.handOver.elsewhere)
    if (left) orders.push(left)
    else elsewhere_n++
  }
  if (elsewhere.isUnknown && orders.length > 0) {
    told.push(parts.site.texts.handOver.elsewhere.unknown)
  }
  const own = dayIds(parts, 'L', book.state().items.keys(), orders.length)
  const listed = orders.map((order, index) => ({ ...order, id: own[index] ?? '' }))
  if (listed.length > 0) await book.act({ type: 'listOrders', orders: listed }, 'app')
  return { listed_n: listed.length, elsewhere_n, told }
}

/** Which request is for which test is sure only where each gave exactly one. */
const requestsOf = (urls: readonly string[], tests: readonly string[]): readonly OrderRequest[] =>
  urls.map((url, index) => {
    const test = urls.length === tests.length ? tests[index] : undefined
    return test === undefined ? { url } : { url, test }
  })

/** What has become there of orders that still wait here: what has ended there is canceled here, and told. */
async function lookAfter(deps: FetchDeps): Promise<Fetched> {
  const { server, toDo, mostPages } = deps
  const items = toDo().filter(
    ({ order, item }) =>
      // In the chair, and said to be ended: that is told on its draw.
      !ENDED_HERE.has(item.standing) && requestsAt(order, server.address).length > 0,
  )
  const ids = items.flatMap(({ order }) => (order.requests ?? []).map(requestId))
  const there = new Map<string, string>()
  for await (const pages of readByIds(server, 'ServiceRequest', ids, mostPages)) {
    if (pages.kind === 'not') return { ...NOTHING, trouble: pages.answer }
    for (const entry of pages.entries) {
      const { id, status, resourceType } = resourceOf(entry)
      if (resourceType === 'ServiceRequest') there.set(String(id), String(status))
    }
  }
  const elsewhere = await readElsewhere(deps, ids)
  const told: string[] = []
  for (const item of items) told.push(...(await follow(deps, item, { there, elsewhere })))
  return { ...NOTHING, told }
}

const ENDED_HERE: ReadonlySet<Standing> = new Set(['cancelled', 'refused'])

/** R4, value set request-status. What is not there any more is told and waits: it may only be out of sight. */
const ENDED = new Set(['revoked', 'entered-in-error', 'completed'])

interface Become {
  /** Status by the id of the request. */
  readonly there: ReadonlyMap<string, string>
  readonly elsewhere: Elsewhere
}

async function follow(
  { parts, book }: FetchDeps,
  { order, status: { status } }: Pick<DayItem, 'order' | 'status'>,
  { there, elsewhere }: Become,
): Promise<readonly string[]> {
  const { told: texts, server: by, elsewhere: words } = parts.site.texts.handOver
  const { testName } = testInfo(parts.site.catalogue)
  const { requests = [] } = order
  const statusOf = (request: OrderRequest): string => there.get(requestId(request)) ?? ''
  const drawnBy = (request: OrderRequest): string | undefined =>
    drawnElsewhere(request, elsewhere)?.device
  const hasEnded = (request: OrderRequest): boolean => ENDED.has(statusOf(request))
  const ended = requests.filter((request) => hasEnded(request) || drawnBy(request) !== undefined)
  const gone = requests.filter((request) => statusOf(request) === '')
  const number = order.order.orderNumber || order.id
  const isInChair = status === 'inChair'
  const lost = gone.length > 0 ? [fillText(texts.notThere, { number })] : []
  const [first] = ended
  if (!first) {
    const asked = askedOf(order, elsewhere, words)
    if (asked === order) return lost
    const why = asked.questions.at(-1) ?? ''
    // Whoever draws is past what is asked before.
    if (isInChair) return [...lost, fillText(texts.inChair, { number, why })]
    await book.act({ type: 'orderChanged', order: asked, why }, 'app')
    return lost
  }
  const why = hasEnded(first)
    ? fillText(texts.endedWhy, { status: statusOf(first) })
    : fillText(words.drawn, { device: drawnBy(first) ?? '' })
  const left = withoutRequests(order, ended)
  const testsOff = left.kind === 'part' ? left.without.map(testName).join(', ') : ''
  if (left.kind === 'none') {
    await book.act({ type: 'orderCancelled', orderIds: [order.id], by, why }, 'app')
    return [...lost, fillText(texts.ended, { number, why })]
  }
  if (left.kind === 'unsure') {
    const says = fillText(texts.partEnded, { number, why })
    const question = hasEnded(first)
      ? says
      : fillText(words.partDrawn, { device: drawnBy(first) ?? '' })
    const asked = withQuestions(order, [question])
    if (asked === order) return lost
    if (!isInChair) await book.act({ type: 'orderChanged', order: asked, why }, 'app')
    return [...lost, says]
  }
  if (isInChair) {
    // Its draw goes on with all of them, and how each went is still to be told to the record server.
    return [...lost, fillText(texts.testsInChair, { number, tests: testsOff, why })]
  }
  await book.act({ type: 'orderChanged', order: left.order, why }, 'app')
  return [...lost, fillText(texts.testsEnded, { number, tests: testsOff, why })]
}

const isRequest = (entry: Json): boolean => typeOf(entry) === 'ServiceRequest'

/** Where a resource stands: as this device reaches it, whatever name the server has for itself. */
function urlOf(entry: Json, address: string): string {
  const { resourceType, id } = resourceOf(entry)
  return `${address}/${String(resourceType)}/${String(id)}`
}
