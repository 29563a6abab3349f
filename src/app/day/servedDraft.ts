import { defined } from '../../core/basics/defined.ts'
import type { ListedOrder } from '../../core/day/listedOrder.ts'
import type { Order, OrderPart, Preparation } from '../../core/order/order.ts'
import { filledDraft } from '../order/filledDraft.ts'
import type { OrderDraft } from '../order/orderDraft.ts'
import type { SiteData } from '../site/siteData.ts'
import { dayRules } from './dayRules.ts'

/** The order as one of several that share a draw. */
function partOf({ id, order, laboratory }: ListedOrder): OrderPart {
  const { orderNumber, tests, provider, providerNumber, orderedAt, priority } = order
  const who = { provider, providerNumber, orderedAt }
  return defined({ orderNumber, tests, ...who, priority, laboratory, listed: id })
}

/** Each of them; a recollection of several orders brings its own. */
const partsOf = (listed: ListedOrder): readonly OrderPart[] =>
  listed.order.parts ?? [partOf(listed)]

/**
 * The form filled in for orders of the list that share a draw: the first one's number stands for it, and each keeps its
 * own among the parts. What any of them knows of the preparation is known.
 */
export function servedDraft(
  orders: readonly [ListedOrder, ...ListedOrder[]],
  site: SiteData,
): OrderDraft {
  const [first] = orders
  const { parts: _parts, ...plain } = first.order
  const order: Order = { ...plain, tests: joinedTests(orders) }
  const preparation: Preparation = orders.reduceRight<Preparation>(
    (known, each) => ({ ...known, ...told(each.preparation) }),
    first.preparation,
  )
  const draft = filledDraft(
    defined({
      patient: first.patient,
      order,
      preparation,
      needleSet: first.needleSet ?? site.demo.needleSet,
      collecting: first.collecting,
    }),
    first.invented,
  )
  const parts = orders.flatMap(partsOf)
  const { recordNumber, birthDate } = first.patient
  const where = orders.find(({ place }) => place?.kind === 'ward')?.place
  return {
    ...draft,
    // The ward where the patient lies, unless an order names one itself: it goes onto labels and request.
    ward: draft.ward || (where?.text ?? ''),
    // A file with one name alone does not say that there is no other.
    oneName: draft.oneName && first.from === 'hand',
    moments: first.moments ?? {},
    questions: [...asksFasting(orders, site), ...orders.flatMap(({ questions }) => questions)].map(
      (text) => ({ text, confirmed: false }),
    ),
    served: defined({
      ids: orders.map(({ id }) => id),
      recordNumber,
      birthDate,
      // Of one alone the draw's own order tells all but to which laboratory it goes.
      parts: parts.length > 1 || parts[0]?.laboratory !== undefined ? parts : undefined,
      recollects: first.recollects,
    }),
  }
}

/** An order may ask for fasting where none of its tests does: then no plan would ask, and somebody has to. */
function asksFasting(orders: readonly ListedOrder[], site: SiteData): readonly string[] {
  const tests = orders.flatMap(({ order }) => order.tests)
  const isAsked = dayRules(site.catalogue).isFasting(tests)
  return !isAsked && orders.some(({ fasting }) => fasting) ? [site.texts.day.fastingAsked] : []
}

/** As often as one order asks for a test it is ordered; that another one does too is one draw of it. */
function joinedTests(orders: readonly ListedOrder[]): readonly string[] {
  return orders.reduce<readonly string[]>(
    (all, { order }) => [...all, ...order.tests.filter((test) => !all.includes(test))],
    [...(orders[0]?.order.tests ?? [])],
  )
}

const told = ({ anticoagulant, ...rest }: Preparation): Partial<Preparation> =>
  anticoagulant === 'notAsked' ? rest : { anticoagulant, ...rest }
