import type { Hearing } from '../core/voice/hearing.ts'

export type { Hearing }

export type SpeechState =
  | { readonly kind: 'off' }
  | { readonly kind: 'loading' }
  | { readonly kind: 'listening' }
  | { readonly kind: 'paused' }
  | {
      readonly kind: 'trouble'
      readonly code: SpeechTrouble
      /** For whoever looks for the cause, as the browser or the engine words it. */
      readonly detail?: string
    }

export const SPEECH_TROUBLES = [
  'noMicrophone',
  'notAllowed',
  'insecurePage',
  'microphoneLost',
  'microphoneMuted',
  'microphoneFailed',
  'loadFailed',
  'badArchive',
  'wrongChecksum',
  'elsewhere',
  'workerDied',
  'audioSuspended',
  'tooLoud',
] as const
export type SpeechTrouble = (typeof SPEECH_TROUBLES)[number]

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
