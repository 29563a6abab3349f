import { isRecord } from '../../../core/basics/isRecord.ts'
import type { AudioTrouble } from './audioSource.ts'

/** What is known of the microphone at a moment. */
export interface MicFacts {
  /** Why the browser gave none, when it was last asked. */
  readonly withheld:
    Exclude<AudioTrouble, 'microphoneLost' | 'microphoneMuted' | 'audioSuspended'> | undefined
  readonly ended: boolean
  readonly muted: boolean
  readonly running: boolean
  /** Monotonic ms of the last chunk of any kind, and of the last that was not digital silence. */
  readonly chunk_ms: number
  readonly sound_ms: number
}

/** Told within two seconds: this long without sound, and a poll every `POLL_ms`. */
export const DEAF_ms = 1400
export const POLL_ms = 300

/** Why no sound comes, or `undefined` if it does. A real microphone is never digitally silent, a muted one is. */
export function micTrouble(facts: MicFacts, now_ms: number): AudioTrouble | undefined {
  if (facts.withheld) return facts.withheld
  if (facts.ended) return 'microphoneLost'
  if (!facts.running) return 'audioSuspended'
  if (facts.muted) return 'microphoneMuted'
  if (now_ms - facts.chunk_ms > DEAF_ms) return 'microphoneLost'
  if (now_ms - facts.sound_ms > DEAF_ms) return 'microphoneMuted'
  return undefined
}

/**
 * What it means that a microphone could not be had, by the names of the Media Capture and Streams standard.
 * @param had there was one before: what cannot be had again is lost, unless it was the permission that went
 */
export function whyWithheld(error: unknown, had: boolean): Partial<MicFacts> {
  const name = isRecord(error) ? error.name : undefined
  if (name === 'NotAllowedError' || name === 'SecurityError') return { withheld: 'notAllowed' }
  if (had) return { withheld: undefined, ended: true }
  const missing = name === 'NotFoundError' || name === 'OverconstrainedError'
  return { withheld: missing ? 'noMicrophone' : 'microphoneFailed' }
}
