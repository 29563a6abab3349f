import {
  jwtAuthenticator,
  wsconnect,
  type Authenticator,
  type NatsConnection,
} from '@nats-io/nats-core'
import type { Clock } from '../../../ports/clock.ts'
import type { Hub } from '../../../ports/hub.ts'
import { dialOptions } from './dialOptions.ts'
import { createNatsHub } from './natsHub.ts'

/** What a device shows at the door. */
export interface HubPass {
  /** Says who it is and what it may; signed by the clinic. */
  readonly jwt: string
  /** Proves that it is its own pass: 58 characters that never leave the device. */
  readonly seed: string
}

/** A joining pass needs no proof: it is shown to anybody. */
export type ShownPass = Pick<HubPass, 'jwt'> & Partial<HubPass>

export interface BrowserHubSetting {
  readonly clinic: string
  /** The name in the pass: the device's, or that of a joining pass. */
  readonly device: string
  /** `wss://hub.clinic.example:9222`, one for each node. The page's content policy has to name them. */
  readonly servers: readonly string[]
  /** Read at each connection, so that a new pass counts from the next one on. */
  readonly pass: () => ShownPass
  readonly clock: Clock
  readonly random: () => number
  readonly patience_ms?: number
}

/** The clinic's hub from a page, over a WebSocket. Load this file only where a hub is set up: it brings its library. */
export function createBrowserHub(setting: BrowserHubSetting): Hub {
  return createNatsHub({
    ...setting,
    dial: (patience_ms) => dialBrowser(setting, setting.device, setting.pass, patience_ms),
  })
}

/** Connects a page to the hub. @param holder the name in the pass */
export function dialBrowser(
  { servers }: Pick<BrowserHubSetting, 'servers'>,
  holder: string,
  pass: () => ShownPass,
  patience_ms: number,
): Promise<NatsConnection> {
  const authenticator: Authenticator = (nonce) => {
    const { jwt, seed } = pass()
    const proof = seed === undefined ? undefined : new TextEncoder().encode(seed)
    return jwtAuthenticator(jwt, proof)(nonce)
  }
  return wsconnect({
    ...dialOptions(holder, patience_ms),
    servers: [...servers],
    authenticator,
  })
}
