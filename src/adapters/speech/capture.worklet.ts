/** Runs in the browser's audio thread: gathers 128-sample blocks into pieces of 100 ms and posts them to the page. */
declare abstract class AudioWorkletProcessor {
  readonly port: MessagePort
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void
declare const sampleRate: number
declare const currentFrame: number

/** What the page gets for each piece. */
export interface CapturedPiece {
  readonly samples: Float32Array
  /** Seconds of the audio clock at the end of the piece. */
  readonly end_s: number
}

class Capture extends AudioWorkletProcessor {
  #piece = new Float32Array(Math.round(sampleRate / 10))
  #filled = 0

  process(inputs: readonly (readonly Float32Array[])[]): boolean {
    const block = inputs[0]?.[0]
    if (!block) return true
    for (const [i, sample] of block.entries()) {
      this.#piece[this.#filled++] = sample
      if (this.#filled === this.#piece.length) this.#post((currentFrame + i + 1) / sampleRate)
    }
    return true
  }

  #post(end_s: number): void {
    const piece: CapturedPiece = { samples: this.#piece, end_s }
    this.port.postMessage(piece, [piece.samples.buffer])
    this.#piece = new Float32Array(Math.round(sampleRate / 10))
    this.#filled = 0
  }
}

registerProcessor('stillhand-capture', Capture)
