import type { HandedKind, HandOverRow, Refusal } from '../../core/handOver/handOverRow.ts'
import type { ServerAnswer } from '../../core/handOver/serverAnswer.ts'
import type { RecordServer } from '../../ports/recordServer.ts'

/** What a thing has become when it was read to be sent. */
export type Made =
  | {
      readonly kind: 'ready'
      readonly hash: string
      readonly body: string
      send(server: RecordServer): Promise<ServerAnswer>
    }
  | { readonly kind: 'refused'; readonly refusal: Refusal }
  /** It came as a file: not ours to hand over. */
  | { readonly kind: 'broughtIn' }
  /** It is not on this device any more. */
  | { readonly kind: 'gone' }

/** One thing that is to stand at the record server. */
export interface HandOverJob extends Pick<HandOverRow, 'key' | 'about' | 'mark'> {
  readonly kind: HandedKind
  /** Reads it and makes it ready; rejects as the store does. */
  make(): Promise<Made>
}
