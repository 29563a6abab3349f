import { DeliverPolicy, type ConsumerMessages, type JsMsg } from '@nats-io/jetstream'
import type { Wire } from './natsLink.ts'

export interface Following {
  readonly stream: string
  readonly filter: string
  /** The first to be given, by its number in the stream; the last of each subject where it is absent. */
  readonly from?: number
  /** Returns false to begin again later. */
  message(message: JsMsg): boolean
  /** It has ended although nobody wanted that. */
  broke(error: unknown): void
}

/** Follows a stream over one connection, until the returned function is called. Nothing is left at the server. */
export function follow(wire: Wire, following: Following): () => void {
  let isOn = true
  let messages: ConsumerMessages | undefined
  const end = (): void => {
    isOn = false
    // The server forgets the reader by itself too, some minutes later.
    messages?.stop()
  }
  const broke = (error: unknown): void => {
    if (!isOn) return
    end()
    following.broke(error)
  }
  const begin = async (): Promise<void> => {
    const { from } = following
    const start =
      from === undefined
        ? { deliver_policy: DeliverPolicy.LastPerSubject }
        : { deliver_policy: DeliverPolicy.StartSequence, opt_start_seq: from }
    const consumer = await wire.stream.consumers.get(following.stream, {
      filter_subjects: following.filter,
      ...start,
    })
    if (!isOn) return
    messages = await consumer.consume({
      callback: (message) => {
        if (isOn && !following.message(message)) broke(undefined)
      },
    })
    if (!isOn) return messages.stop()
    const why = await messages.closed()
    broke(why)
  }
  begin().catch(broke)
  return end
}
