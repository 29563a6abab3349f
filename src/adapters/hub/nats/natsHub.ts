import { errors } from '@nats-io/nats-core'
import type { Clock } from '../../../ports/clock.ts'
import type { Hub } from '../../../ports/hub.ts'
import { HubError } from '../../../ports/hubFault.ts'
import { checkName, checkSize } from '../checkAsked.ts'
import { appendEntry, lastEntry, readEntries, type Device } from './natsEntries.ts'
import { createNatsKeys } from './natsKeys.ts'
import { createNatsLink, type Dial } from './natsLink.ts'
import { joinSubject } from './subjects.ts'
import { watchEntries } from './watchEntries.ts'

export interface NatsHubSetting {
  readonly clinic: string
  /** The device as which it writes: the name its pass gives it. */
  readonly device: string
  readonly clock: Clock
  readonly dial: Dial
  readonly random: () => number
  /** So long an answer is waited for. */
  readonly patience_ms?: number
}

const PATIENCE_ms = 4000

/** The clinic's hub behind a nats-server with JetStream. */
export function createNatsHub(setting: NatsHubSetting): Hub {
  const patience_ms = setting.patience_ms ?? PATIENCE_ms
  const device: Device = { ...setting, patience_ms }
  checkName(setting.clinic)
  checkName(setting.device)
  const link = createNatsLink({ ...setting, patience_ms })
  const asking = joinSubject(setting.clinic)

  return {
    state: link.state,
    onState: link.onState,
    start: link.start,
    stop: link.stop,
    append: (log, kind, bytes, behind) => appendEntry(link, device, log, kind, bytes, behind),
    last: (log) => lastEntry(link, device, log),
    read: (scope, after) => readEntries(link, device, scope, after),
    watch(scope, after, watcher) {
      if (scope.log !== undefined) checkName(scope.log)
      return watchEntries(link, device, scope, after, watcher)
    },
    keys: createNatsKeys(link, device),
    ask: (bytes) =>
      link.call(async ({ connection }) => {
        const timeout = patience_ms
        try {
          const { data } = await connection.request(asking, checkSize(bytes), { timeout })
          return new Uint8Array(data)
        } catch (error) {
          const isSilent =
            error instanceof errors.TimeoutError ||
            (error instanceof errors.RequestError && error.isNoResponders())
          throw isSilent ? new HubError('noAnswer', 'Nobody answers', error) : error
        }
      }),
    onAsk: (answer) =>
      link.each(({ connection }) => {
        const heard = connection.subscribe(asking, {
          callback: (error, message) => {
            if (error) return
            answer(new Uint8Array(message.data)).then(
              (said) => said && message.respond(said),
              () => undefined,
            )
          },
        })
        return () => heard.unsubscribe()
      }),
  }
}
