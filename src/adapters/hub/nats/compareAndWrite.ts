import type { StoredMsg } from '@nats-io/jetstream'
import type { Clock } from '../../../ports/clock.ts'
import { HubError } from '../../../ports/hubFault.ts'
import { wakeIn } from '../../../ports/patience.ts'
import { codeOf, NO_MESSAGE, NOT_YET, WRONG_LAST } from './natsFaults.ts'
import type { Wire } from './natsLink.ts'

/** Where something is written, and behind what. */
export interface Place {
  readonly stream: string
  readonly subject: string
  /** The subjects among which `behind` has to be the last message. */
  readonly among: string
  readonly behind: number
}

const RETRY_ms = 25

/**
 * Writes one message if nothing else was written meanwhile. No message id goes with it: an id counts for the whole
 * stream and answers with success for a message that was not stored; the comparison alone makes sending twice harmless.
 * @returns its number in the stream, or `undefined` where it was refused
 */
export async function compareAndWrite(
  wire: Wire,
  clock: Clock,
  { stream, subject, among, behind }: Place,
  bytes: Uint8Array,
  patience_ms: number,
): Promise<number | undefined> {
  const expect = {
    streamName: stream,
    lastSubjectSequence: behind,
    lastSubjectSequenceSubject: among,
  }
  const until_ms = clock.read().mono_ms + patience_ms
  for (;;) {
    try {
      return (await wire.stream.publish(subject, bytes, { expect, retries: 0 })).seq
    } catch (error) {
      const code = codeOf(error)
      if (code === WRONG_LAST) return undefined
      if (code !== NOT_YET) throw error
      if (clock.read().mono_ms >= until_ms) {
        throw new HubError('unreachable', 'The entry before is still on its way', error)
      }
      await new Promise<void>((resolve) => void wakeIn(clock, RETRY_ms, resolve))
    }
  }
}

type Which =
  | { readonly last_by_subj: string }
  | { readonly seq: number; readonly next_by_subj: string }
  | { readonly seq: number }

/** One message, asked of the leader: a copy may lag. */
export async function askLeader(
  wire: Wire,
  stream: string,
  which: Which,
): Promise<StoredMsg | undefined> {
  try {
    return (await wire.manager.streams.getMessage(stream, which)) ?? undefined
  } catch (error) {
    if (codeOf(error) === NO_MESSAGE) return undefined
    throw error
  }
}
