import { fillText } from '../../core/basics/fillText.ts'
import type { ListedOrder, OrderRequest } from '../../core/day/listedOrder.ts'
import { resourceOf } from '../../core/fhir/entryResource.ts'
import { systemAt } from '../../core/fhir/siteSystems.ts'
import { readOrderTask, type SaidOfRequest } from '../../core/handOver/readOrderTask.ts'
import { requestId } from '../../core/handOver/requestId.ts'
import type { RecordServer } from '../../ports/recordServer.ts'
import type { AppParts } from '../appDeps.ts'
import type { DayBook } from '../day/dayBook.ts'
import type { HandOverTexts } from '../site/handOverTexts.ts'
import { readByIds } from './readPages.ts'
import { withoutRequests } from './withoutRequests.ts'

interface ElsewhereDeps {
  readonly parts: { readonly site: Pick<AppParts['site'], 'recordSystems'> }
  readonly book: Pick<DayBook, 'state'>
  readonly server: Pick<RecordServer, 'search'>
  readonly mostPages: number
}

export interface Elsewhere {
  /** By the id of the request: what another device says of it. */
  readonly said: ReadonlyMap<string, SaidOfRequest>
  /** Asked after Tasks, the server gave none now: nobody knows whether they are drawn elsewhere. */
  readonly isUnknown: boolean
}

/** Of a server that has no Tasks to search: it never tells, which the site knows. */
const HAS_NONE: readonly (number | undefined)[] = [400, 404, 405, 501]

/**
 * What devices that this one shares no list with say at the record server of these requests: two that fetch the same
 * order must not both draw it. The orders come also from a server that does not tell of Tasks.
 */
export async function readElsewhere(
  { parts, book, server, mostPages }: ElsewhereDeps,
  ids: readonly string[],
): Promise<Elsewhere> {
  const system = systemAt('draw', parts.site.recordSystems.base)
  const known = book.state().items
  const found = new Map<string, SaidOfRequest>()
  let isUnknown = false
  for await (const pages of readByIds(server, 'Task', ids, mostPages)) {
    if (pages.kind === 'not' && !HAS_NONE.includes(pages.answer.status)) isUnknown = true
    for (const entry of pages.kind === 'read' ? pages.entries : []) {
      const said = readOrderTask(resourceOf(entry), system)
      if (!said || known.has(said.orderId)) continue
      if (!said.isDrawn && (!said.isInDraw || found.has(said.request))) continue
      found.set(said.request, said)
    }
  }
  return { said: found, isUnknown }
}

/** Who has drawn what that request asks for. */
export function drawnElsewhere(
  request: OrderRequest,
  elsewhere: Elsewhere,
): SaidOfRequest | undefined {
  const said = elsewhere.said.get(requestId(request))
  return said?.isDrawn ? said : undefined
}

type Part = Pick<ListedOrder, 'order' | 'requests' | 'questions'>
type Words = HandOverTexts['elsewhere']

/** The same order where nobody else is about to draw it; else with the question whether they were asked. */
export function askedOf<T extends Part>(order: T, elsewhere: Elsewhere, words: Words): T {
  const devices = (order.requests ?? []).flatMap((request) => {
    const said = elsewhere.said.get(requestId(request))
    return said?.isInDraw ? [said.device] : []
  })
  return withQuestions(
    order,
    [...new Set(devices)].map((device) => fillText(words.inDraw, { device })),
  )
}

/** The same order where all of it is asked already. */
export function withQuestions<T extends Part>(order: T, questions: readonly string[]): T {
  const open = questions.filter((question) => !order.questions.includes(question))
  return open.length === 0 ? order : { ...order, questions: [...order.questions, ...open] }
}

/** What of an order is to be drawn here; `undefined` where others have drawn all of it. */
export function leftHere<T extends Part>(
  order: T,
  elsewhere: Elsewhere,
  words: Words,
): T | undefined {
  const drawn = (order.requests ?? []).filter((request) => drawnElsewhere(request, elsewhere))
  const [first] = drawn
  if (!first) return askedOf(order, elsewhere, words)
  const left = withoutRequests(order, drawn)
  if (left.kind === 'none') return undefined
  if (left.kind === 'part') return askedOf(left.order, elsewhere, words)
  const device = drawnElsewhere(first, elsewhere)?.device ?? ''
  return withQuestions(order, [fillText(words.partDrawn, { device })])
}
