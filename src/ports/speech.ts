/** A partial or final hearing, words as the model writes them, `[unk]` for speech that fits no phrase. */
export interface Hearing {
  readonly text: string
  readonly final: boolean
  /**
   * Counts utterances: one more after each final result, and after a change of phrases for all audio from then on.
   * The last final of an old utterance may come after the first partial of the next.
   */
  readonly utterance: number
  /** Monotonic ms at which the last audio chunk behind this hearing was captured. */
  readonly mono_ms: number
  /** Loudness of the speech above the room, dB, where the adapter measures it. */
  readonly level_dB?: number
  /** How long it has been quiet again after the speech, ms, where the adapter measures it; 0 while somebody speaks. */
  readonly quiet_ms?: number
  /** How long that speech lasted, ms, from pause to pause, where the adapter measures it. */
  readonly spoken_ms?: number
  /** Mean confidence of the final words, 0..1, where the engine gives it. */
  readonly confidence?: number
}

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
  onHearing(listener: (hearing: Hearing) => void): () => void
  onState(listener: (state: SpeechState) => void): () => void
  /** Input level 0..1 about ten times a second. */
  onLevel(listener: (level: number) => void): () => void
}
