import type { JsMsg, StoredMsg } from '@nats-io/jetstream'
import type { MsgHdrs } from '@nats-io/nats-core'
import { BEHIND_UNTOLD, type HubEntry } from '../../../core/hub/hubEntry.ts'
import type { KeyValue } from '../../../ports/hub.ts'
import { readKeySubject, readSubject } from './subjects.ts'

/** The writer's own word for what its entry follows; the server has compared it before it took the entry. */
const BEHIND = 'Nats-Expected-Last-Subject-Sequence'

/** A message of the stream, however it was read. */
export interface Taken {
  readonly subject: string
  readonly sequence: number
  readonly at_ms: number
  readonly headers: MsgHdrs | undefined
  readonly bytes: Uint8Array
}

export const ofStored = (message: StoredMsg): Taken => ({
  subject: message.subject,
  sequence: message.seq,
  at_ms: Math.floor(Date.parse(message.timestamp)),
  headers: message.header,
  bytes: message.data,
})

export const ofDelivered = (message: JsMsg): Taken => ({
  subject: message.subject,
  sequence: message.seq,
  at_ms: Math.floor(message.info.timestampNanos / 1_000_000),
  headers: message.headers,
  bytes: message.data,
})

/** `undefined` where it bears no name that a device of this app can have given. */
export function entryOf({ subject, sequence, at_ms, headers, bytes }: Taken): HubEntry | undefined {
  const named = readSubject(subject)
  if (!named) return undefined
  const said = Number(headers?.get(BEHIND) || NaN)
  const behind = Number.isSafeInteger(said) && said >= 0 ? said : BEHIND_UNTOLD
  return { sequence, ...named, behind, at_ms, bytes: new Uint8Array(bytes) }
}

export function valueOf({ subject, sequence, at_ms, bytes }: Taken): KeyValue | undefined {
  const key = readKeySubject(subject)
  return key === undefined
    ? undefined
    : { key, revision: sequence, at_ms, bytes: new Uint8Array(bytes) }
}
