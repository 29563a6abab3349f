/** What the audio worklet in `public/audio/capture.worklet.js` posts every 100 ms. */
export interface CapturedChunk {
  readonly samples: Float32Array
  /** Seconds of the audio clock at the end of the chunk. */
  readonly end_s: number
}

/** How far the two clocks may drift apart between two chunks, ms. */
const DRIFT_ms = 0.05

/**
 * Turns the audio clock into the page's monotonic clock. Messages come late when the page is busy but never early, so
 * the smallest difference seen is the true one; it may creep up slowly, since the clocks do not run at one speed.
 */
export function createAudioTime(): (end_s: number, received_ms: number) => number {
  let offset_ms = Infinity
  return (end_s, received_ms) => {
    offset_ms = Math.min(offset_ms + DRIFT_ms, received_ms - 1000 * end_s)
    return 1000 * end_s + offset_ms
  }
}
