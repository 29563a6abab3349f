import { defined } from '../../../core/basics/defined.ts'
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

/** What kept a model from being loaded. */
export interface ModelFault {
  readonly code: Extract<SpeechTrouble, 'loadFailed' | 'badArchive' | 'wrongChecksum'>
  /** As the browser or the engine words it. */
  readonly detail?: string
}

export class ModelTrouble extends Error {
  readonly fault: ModelFault

  constructor(code: ModelFault['code'], detail?: string) {
    super(detail ?? code)
    this.fault = defined({ code, detail })
  }
}
