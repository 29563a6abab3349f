import type { ConnectionOptions } from '@nats-io/nats-core'
import { inboxOf } from './subjects.ts'

const PING_ms = 5000

/**
 * How this app connects, by whatever transport.
 * @param holder the name its pass gives it; only there it may listen for answers
 */
export const dialOptions = (holder: string, patience_ms: number): ConnectionOptions => ({
  name: holder,
  inboxPrefix: inboxOf(holder),
  timeout: patience_ms,
  // The link makes each connection anew, see there.
  reconnect: false,
  // A link that is silently dead is noticed after three of these.
  pingInterval: PING_ms,
  maxPingOut: 2,
  ignoreClusterUpdates: true,
  noAsyncTraces: true,
})
