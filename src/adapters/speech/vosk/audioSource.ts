/** Audio from a microphone or a recording, in chunks of 100 ms: mono, 16 kHz, samples within -1..1. */
export interface AudioChunk {
  readonly samples: Float32Array
  /** Root mean square of the samples, dB below full scale; `-Infinity` for digital silence. */
  readonly level_dBFS: number
  /** Monotonic ms at which its last sample was captured. */
  readonly mono_ms: number
}

export const RATE_Hz = 16_000
export const CHUNK_ms = 100
export const CHUNK_SAMPLES = (RATE_Hz * CHUNK_ms) / 1000

export type AudioTrouble =
  | 'noMicrophone'
  | 'notAllowed'
  | 'insecurePage'
  | 'microphoneLost'
  | 'microphoneMuted'
  | 'microphoneFailed'
  | 'audioSuspended'

export interface AudioObserver {
  onChunk(chunk: AudioChunk): void
  /** What keeps audio from coming, told when it changes; `undefined` when it flows. */
  onTrouble(trouble: AudioTrouble | undefined): void
}

export interface AudioSource {
  /** Resolves when audio flows or trouble has been told; never rejects. */
  start(observer: AudioObserver): Promise<void>
  stop(): Promise<void>
}

/** Root mean square, dB below full scale. */
export function levelOf(samples: Float32Array): number {
  let sum = 0
  for (const sample of samples) sum += sample * sample
  return 10 * Math.log10(sum / Math.max(1, samples.length))
}
