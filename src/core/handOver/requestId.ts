import type { ListedOrder, OrderRequest } from '../day/listedOrder.ts'

/** The id of a request at its server: the last part of its address. */
export const requestId = ({ url }: OrderRequest): string => url.split('/').at(-1) ?? ''

/** R4, references.html: relative to the server that has it. */
export const requestReference = (request: OrderRequest): string =>
  `ServiceRequest/${requestId(request)}`

/**
 * The requests at one server that an order was fetched from: to another one nothing is told of them.
 * @param server its base address
 */
export const requestsAt = (
  { requests = [] }: Pick<ListedOrder, 'requests'>,
  server: string,
): readonly OrderRequest[] => requests.filter(({ url }) => url.startsWith(`${server}/`))
