import { isRecord } from '../basics/isRecord.ts'
import type { Json } from './serverAnswer.ts'

/** What a Task of ours at the record server says of one request. */
export interface SaidOfRequest {
  /** Id of the order on the list of the device that wrote it. */
  readonly orderId: string
  /** The id of the request at its server. */
  readonly request: string
  /** That device, by its prefix. */
  readonly device: string
  readonly isDrawn: boolean
  readonly isInDraw: boolean
}

/**
 * Reads a Task that `orderTask` made on this device or another one; `undefined` for one of anybody else.
 * @param system of our own numbers, see `systemAt`
 */
export function readOrderTask(task: Json, system: string): SaidOfRequest | undefined {
  const { resourceType, identifier, status } = task
  if (resourceType !== 'Task' || !Array.isArray(identifier)) return undefined
  const own = identifier.filter(isRecord).find((each) => each['system'] === system)
  const [, orderId, device, request] =
    /^(([^/]{1,20})-\d{8}-L[^/]*)\/task\/([A-Za-z0-9.-]{1,64})$/.exec(String(own?.['value'])) ?? []
  if (orderId === undefined || device === undefined || request === undefined) return undefined
  return {
    ...{ orderId, device, request },
    isDrawn: status === 'completed',
    isInDraw: status === 'in-progress',
  }
}
