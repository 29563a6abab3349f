import type { AudioTrouble } from './audioSource.ts'

/** What is known of the microphone at a moment. */
export interface MicFacts {
  /** The browser gave no microphone: none there, or not allowed. */
  readonly refused: boolean
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
  if (facts.refused) return 'noMicrophone'
  if (facts.ended) return 'microphoneLost'
  if (!facts.running) return 'audioSuspended'
  if (facts.muted) return 'microphoneMuted'
  if (now_ms - facts.chunk_ms > DEAF_ms) return 'microphoneLost'
  if (now_ms - facts.sound_ms > DEAF_ms) return 'microphoneMuted'
  return undefined
}
