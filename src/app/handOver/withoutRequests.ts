import type { ListedOrder, OrderRequest } from '../../core/day/listedOrder.ts'

type Part = Pick<ListedOrder, 'order' | 'requests'>

/** What is left of an order once some of its requests are not to be drawn any more. */
export type Left<T extends Part> =
  | { readonly kind: 'none' }
  /** Which tests these were is not sure. */
  | { readonly kind: 'unsure' }
  | { readonly kind: 'part'; readonly order: T; readonly without: readonly string[] }

/** @param ended those of its requests that have ended, one or more */
export function withoutRequests<T extends Part>(order: T, ended: readonly OrderRequest[]): Left<T> {
  const requests = order.requests ?? []
  if (ended.length === requests.length) return { kind: 'none' }
  const out = new Set(ended.flatMap(({ test }) => test ?? []))
  const tests = order.order.tests.filter((test) => !out.has(test))
  const isSure =
    out.size === ended.length && tests.length > 0 && tests.length < order.order.tests.length
  if (!isSure) return { kind: 'unsure' }
  const left = requests.filter((request) => !ended.includes(request))
  return {
    kind: 'part',
    order: { ...order, order: { ...order.order, tests }, requests: left },
    without: [...out],
  }
}
