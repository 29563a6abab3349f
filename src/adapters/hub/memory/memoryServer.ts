import type { Clock } from '../../../ports/clock.ts'
import type { HubRefusal } from '../../../ports/hubFault.ts'
import type { MemoryStream } from './memoryStream.ts'

type Answer = (bytes: Uint8Array) => Promise<Uint8Array | undefined>

/** What the devices of a clinic in memory share. */
export interface MemoryServer extends MemoryStream {
  readonly clock: Clock
  readonly answers: Set<Answer>
  /** Called whenever something was written, or a link came or went. */
  readonly onChange: (observer: () => void) => () => void
  readonly changed: () => void
  readonly isUp: () => boolean
  readonly isHanging: () => boolean
  readonly lag_ms: () => number
  readonly refusal: (device: string) => HubRefusal | undefined
  /** Whether the answer that would go out now is lost. */
  loses(): boolean
}

export interface MemoryJoining {
  /** So long a call may take. */
  readonly patience_ms?: number
  /** With a joining pass a device may ask, and nothing else. */
  readonly pass?: 'device' | 'joining'
}
