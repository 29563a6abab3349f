import type { Hearing } from '../core/voice/hearing.ts'

export type { Hearing }

export type SpeechState =
  | { readonly kind: 'off' }
  | { readonly kind: 'loading' }
  | { readonly kind: 'listening' }
  | { readonly kind: 'paused' }
  | { readonly kind: 'trouble'; readonly code: SpeechTrouble; readonly message: string }

export type SpeechTrouble =
  | 'noMicrophone'
  | 'microphoneLost'
  | 'microphoneMuted'
  | 'loadFailed'
  | 'badArchive'
  | 'wrongChecksum'
  | 'workerDied'
  | 'audioSuspended'
  | 'tooLoud'

/** Hears phrases. `start` resolves when listening or when trouble has been reported; it never hangs. */
export interface Speech {
  start(): Promise<void>
  stop(): Promise<void>
  /** Phrases open from now on; audio in between is not lost. */
  setPhrases(phrases: readonly string[]): void
  onHearing(observer: (hearing: Hearing) => void): () => void
  onState(observer: (state: SpeechState) => void): () => void
  /** Input level 0..1 about ten times a second. */
  onLevel(observer: (level: number) => void): () => void
}
