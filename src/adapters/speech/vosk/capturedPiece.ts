/** What the audio worklet in `public/audio/capture.worklet.js` posts every 100 ms. */
export interface CapturedPiece {
  readonly samples: Float32Array
  /** Seconds of the audio clock at the end of the piece. */
  readonly end_s: number
}
