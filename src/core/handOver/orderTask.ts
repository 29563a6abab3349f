import { defined } from '../basics/defined.ts'
import { fillText } from '../basics/fillText.ts'
import type { ListedOrder, OrderRequest } from '../day/listedOrder.ts'
import type { ListedItem } from '../day/dayState.ts'
import { isToDo, type OrderStatus, type StatusOfOrder } from '../day/orderStatus.ts'
import { LOCAL } from '../fhir/codes.ts'
import { searchToken } from '../fhir/searchToken.ts'
import { systemAt } from '../fhir/siteSystems.ts'
import { narrativeOf, xhtml } from '../fhir/xhtml.ts'
import { isoLocal } from '../time/format.ts'
import { requestId, requestReference } from './requestId.ts'

/** R4, value set task-status, as far as it is used here. */
export const TASK_STATUSES = [
  'requested',
  'received',
  'in-progress',
  'on-hold',
  'completed',
  'failed',
  'cancelled',
] as const
export type TaskStatus = (typeof TASK_STATUSES)[number]

/** How an order that was fetched stands, as the record server is told; nothing where this device knows no more. */
const STATUS_OF: Readonly<Record<OrderStatus, TaskStatus | undefined>> = {
  waiting: 'received',
  called: 'in-progress',
  inChair: 'in-progress',
  putOff: 'on-hold',
  notFound: 'on-hold',
  drawn: 'completed',
  sent: 'completed',
  received: 'completed',
  partlyDrawn: 'failed',
  notDrawn: 'failed',
  refused: 'failed',
  cancelled: 'cancelled',
  // A laboratory turned it down: it is to be drawn again.
  rejected: 'requested',
  erased: undefined,
}

/** Words for the reason; the language's files have them. */
export interface TaskTexts {
  readonly title: string
  readonly status: Readonly<Record<OrderStatus, string>>
  /** `{status}`, `{why}` */
  readonly because: string
  /** `{device}` */
  readonly owner: string
}

/** A Task for one request of an order, with the search that finds it again. */
export interface OrderTask {
  readonly search: string
  readonly resource: Readonly<Record<string, unknown>>
}

interface Standing {
  /** Prefix of the device on whose list it stands. */
  readonly device: string
  readonly order: ListedOrder
  readonly item: Pick<ListedItem, 'why' | 'listed'>
  readonly status: StatusOfOrder
  /** Its tubes are being planned: a draw is about to begin, and while one runs nothing is told. */
  readonly isPlanned?: boolean
}

/**
 * How the request of a record server stands here. Where it is known which test it is for, it is told of that test
 * alone: a request of a draw that gave the other tubes has failed, and theirs are completed.
 * @param base address of our own systems, see `SiteSystems`
 * @param whyMissing a sentence for a test that no tube holds
 */
export function orderTask(
  { device, order, item, status, isPlanned }: Standing,
  request: OrderRequest,
  texts: TaskTexts,
  whyMissing: (missing: StatusOfOrder['missing'][number]) => string,
  base?: string,
): OrderTask | undefined {
  const own = request.test === undefined ? undefined : [request.test]
  const missing = status.missing.filter(({ test }) => own?.includes(test) ?? true)
  const isPartly = status.status === 'partlyDrawn'
  const shown: OrderStatus = isPartly && missing.length === 0 ? 'drawn' : status.status
  const code = isPlanned && isToDo(shown) ? 'in-progress' : STATUS_OF[shown]
  if (!code) return undefined
  const isEnded = code === 'failed' || code === 'cancelled' || code === 'on-hold'
  const reasons = [isEnded ? (item.why ?? '') : '', ...missing.map(whyMissing)].filter(Boolean)
  const rejected =
    shown === 'rejected' ? status.rejected.map(({ rejected: r }) => r?.note ?? '') : []
  const why = [...reasons, ...rejected.filter(Boolean)].join(' ')
  const words = texts.status[shown]
  const told = why === '' ? words : fillText(texts.because, { status: words, why })
  const system = systemAt('draw', base)
  const value = `${order.id}/task/${requestId(request)}`
  const focus = { reference: requestReference(request) }
  const needsReason = isEnded || shown === 'rejected'
  return {
    search: `Task?identifier=${searchToken(system, value)}`,
    resource: defined({
      resourceType: 'Task',
      text: narrativeOf(texts.title, `<p>${xhtml(told)}</p>`),
      identifier: [{ system, value }],
      basedOn: [focus],
      status: code,
      statusReason: needsReason ? { text: told } : undefined,
      businessStatus: { coding: [{ system: LOCAL_STATUS, code: shown }], text: words },
      intent: 'order',
      focus,
      // Each device that lists it has a Task of its own, so that none talks over another.
      owner: { display: fillText(texts.owner, { device }) },
      authoredOn: isoLocal(item.listed),
      lastModified: isoLocal({ at_ms: status.since_ms, offset_min: 0 }),
    }),
  }
}

/** Our own words for how an order stands have no published list yet; they stand beside R4's status. */
const LOCAL_STATUS = `${LOCAL.order}-status`
