import { jetstream, jetstreamManager } from '@nats-io/jetstream'
import type { JetStreamClient, JetStreamManager } from '@nats-io/jetstream'
import type { NatsConnection } from '@nats-io/nats-core'
import { createEmitter } from '../../../core/basics/emitter.ts'
import type { Clock } from '../../../ports/clock.ts'
import type { HubState } from '../../../ports/hub.ts'
import { HubError } from '../../../ports/hubFault.ts'
import { wakeIn, within } from '../../../ports/patience.ts'
import { asHubError, refusalOf } from './natsFaults.ts'

/** How a connection is made: with a WebSocket in a browser, with a socket in Node. It must not reconnect by itself. */
export type Dial = (patience_ms: number) => Promise<NatsConnection>

/** One connection, from when it was made until it breaks. */
export interface Wire {
  readonly connection: NatsConnection
  readonly stream: JetStreamClient
  readonly manager: JetStreamManager
}

export interface NatsLink {
  readonly state: () => HubState
  readonly onState: (observer: (state: HubState) => void) => () => void
  readonly start: () => void
  readonly stop: () => Promise<void>
  /** Does one thing over the connection there is; always ends, with a `HubError` where it fails. */
  call<T>(work: (wire: Wire) => Promise<T>): Promise<T>
  /** Begins at each connection, and calls what that returns when it breaks; until the link or the caller ends it. */
  each(begin: (wire: Wire) => () => void): () => void
}

export interface LinkSetting {
  readonly clock: Clock
  readonly dial: Dial
  readonly patience_ms: number
  /** Between 0 and 1, so that the devices of a clinic do not come back in one moment. */
  readonly random: () => number
}

const FIRST_WAIT_ms = 250
const LONGEST_WAIT_ms = 15_000
/** Somebody has to do something first. */
const REFUSED_WAIT_ms = 60_000

/**
 * A connection that is made again for ever. The library's own way of coming back is not used: it keeps requests of
 * before, and ends for good after two refusals; here each connection is a new one and everything on it begins anew.
 */
export function createNatsLink({ clock, dial, patience_ms, random }: LinkSetting): NatsLink {
  const states = createEmitter<HubState>()
  const cuts = createEmitter<HubError>()
  const begins = new Map<(wire: Wire) => () => void, () => void>()
  let state: HubState = { kind: 'off' }
  let wire: Wire | undefined
  /** Which start this is; what belongs to an older one does nothing more. */
  let life = 0
  let hurry = (): void => undefined

  const become = (next: HubState): void => {
    const isSame = next.kind === state.kind && next.kind !== 'refused'
    if (isSame || (next.kind === 'refused' && state.kind === 'refused' && next.why === state.why)) {
      return
    }
    state = next
    states.emit(next)
  }
  const now_ms = (): number => clock.read().wall_ms
  const late = (): HubError => new HubError('unreachable', 'No answer in time')

  const lower = (why: HubError): void => {
    wire = undefined
    cuts.emit(why)
    for (const [begin, end] of begins) {
      begins.set(begin, () => undefined)
      end()
    }
  }
  /** Makes one connection and comes back when it has broken; gives why. */
  const connection = async (mine: number): Promise<unknown> => {
    // Also what is thrown at once becomes an outcome.
    const dialing = Promise.resolve().then(() => dial(patience_ms))
    let made: NatsConnection
    try {
      made = await within(clock, 2 * patience_ms, dialing, late)
    } catch (error) {
      // One that comes after all is not kept.
      void dialing.then((stray) => stray.close()).catch(() => undefined)
      return error
    }
    if (mine !== life) return void made.close().catch(() => undefined)
    const options = { timeout: patience_ms }
    const manager = await jetstreamManager(made, { ...options, checkAPI: false })
    wire = { connection: made, manager, stream: jetstream(made, options) }
    let last: unknown
    void (async () => {
      for await (const status of made.status()) if (status.type === 'error') last = status.error
    })().catch(() => undefined)
    become({ kind: 'connected', since_ms: now_ms() })
    for (const begin of [...begins.keys()]) if (wire) begins.set(begin, begin(wire))
    const why = await made.closed()
    return why ?? last
  }
  const rest = (wait_ms: number): Promise<void> =>
    new Promise((resolve) => {
      const cancel = wakeIn(clock, wait_ms, resolve)
      hurry = () => {
        cancel()
        resolve()
      }
    })
  const live = async (mine: number): Promise<void> => {
    for (let failed = 0; mine === life; failed++) {
      const before_ms = clock.read().mono_ms
      const why = await connection(mine)
      if (mine !== life) return
      const wasConnected = wire !== undefined
      lower(new HubError('unreachable', 'The connection broke', why))
      const refused = refusalOf(why)
      const again = state.kind === 'refused' && state.why === 'revoked' ? 'revoked' : undefined
      if (refused) {
        become({
          kind: 'refused',
          why: refused === 'credentials' ? (again ?? refused) : refused,
          since_ms: now_ms(),
        })
      } else become({ kind: 'alone', since_ms: now_ms() })
      if (wasConnected && clock.read().mono_ms - before_ms > LONGEST_WAIT_ms) failed = 0
      const growing_ms = Math.min(LONGEST_WAIT_ms, FIRST_WAIT_ms * 2 ** Math.min(failed, 10))
      await rest((refused ? REFUSED_WAIT_ms : growing_ms) * (0.5 + random() / 2))
    }
  }
  /** After a silence: a connection over which nothing comes any more is given up. */
  const probe = async (asked: Wire): Promise<void> => {
    try {
      await within(clock, patience_ms, asked.connection.flush(), late)
    } catch {
      if (wire === asked) await asked.connection.close().catch(() => undefined)
    }
  }

  return {
    state: () => state,
    onState: states.observe,
    start() {
      if (state.kind !== 'off') return hurry()
      life += 1
      become({ kind: 'connecting' })
      void live(life)
    },
    async stop() {
      if (state.kind === 'off') return
      life += 1
      const made = wire?.connection
      begins.forEach((end) => end())
      begins.clear()
      lower(new HubError('stopped', 'Stopped'))
      become({ kind: 'off' })
      hurry()
      const closing = made?.close().catch(() => undefined) ?? Promise.resolve()
      await within(clock, patience_ms, closing, late).catch(() => undefined)
    },
    async call(work) {
      if (state.kind === 'off') throw new HubError('stopped', 'Not started')
      const asked = wire
      if (!asked) throw new HubError('unreachable', 'No connection')
      let unobserve = (): void => undefined
      const cut = new Promise<never>((_, reject) => (unobserve = cuts.observe(reject)))
      try {
        // The library's own limit comes first; this one is for what it does not watch over.
        return await within(clock, 2 * patience_ms, Promise.race([work(asked), cut]), late)
      } catch (error) {
        const fault = asHubError(error)
        if (fault.fault === 'unreachable') void probe(asked)
        throw fault
      } finally {
        unobserve()
      }
    },
    each(begin) {
      // A wrapper of its own: the same function may be given twice.
      const mine = (to: Wire): (() => void) => begin(to)
      begins.set(mine, () => undefined)
      if (wire) begins.set(mine, mine(wire))
      return () => {
        begins.get(mine)?.()
        begins.delete(mine)
      }
    },
  }
}
