import type { Clock } from '../../../ports/clock.ts'
import type { Hub } from '../../../ports/hub.ts'
import { HubError } from '../../../ports/hubFault.ts'
import { within } from '../../../ports/patience.ts'

const PATIENCE_ms = 12_000

/** Starts a hub and waits until it is connected. @throws HubError `unreachable`, or `refused` where it lets none in */
export function untilConnected(hub: Hub, clock: Clock, patience_ms = PATIENCE_ms): Promise<void> {
  let stop = (): void => undefined
  const there = new Promise<void>((resolve, reject) => {
    const look = (): void => {
      const state = hub.state()
      if (state.kind === 'connected') resolve()
      if (state.kind === 'refused') reject(new HubError('refused', `Not let in: ${state.why}`))
    }
    stop = hub.onState(look)
    hub.start()
    look()
  })
  const late = (): Error => new HubError('unreachable', 'No connection in time')
  return within(clock, patience_ms, there, late).finally(() => stop())
}
