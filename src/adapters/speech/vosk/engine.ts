import type { SpeechTrouble } from '../../../ports/speech.ts'

/** One answer for each chunk of audio and for each time the final result was asked for, in that order. */
export interface EngineReply {
  readonly kind: 'partial' | 'final' | 'error'
  readonly text: string
}

export interface EngineRecognizer {
  accept(samples: Float32Array): void
  askFinal(): void
  remove(): void
}

/** A loaded model that makes recognizers. */
export interface Engine {
  recognizer(phrases: readonly string[], onReply: (reply: EngineReply) => void): EngineRecognizer
  /** Told at most once, when the engine is known to be dead. */
  onDeath(observer: () => void): void
  close(): void
}

/** Why a model could not be loaded, in a way the screen can tell. */
export class ModelTrouble extends Error {
  constructor(
    readonly code: Extract<SpeechTrouble, 'loadFailed' | 'badArchive' | 'wrongChecksum'>,
    message: string,
  ) {
    super(message)
  }
}
