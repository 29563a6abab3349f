/**
 * Runs in the browser's audio thread: gathers blocks of 128 samples into chunks of 100 ms and posts them to the page
 * with the audio clock's time at their end. Has no outputs: nothing is played back.
 */
class Capture extends AudioWorkletProcessor {
  #chunk = new Float32Array(Math.round(sampleRate / 10))
  #filled = 0

  process(inputs) {
    const block = inputs[0]?.[0]
    if (!block) return true
    for (let from = 0; from < block.length; ) {
      const part = block.subarray(from, from + this.#chunk.length - this.#filled)
      this.#chunk.set(part, this.#filled)
      this.#filled += part.length
      from += part.length
      if (this.#filled === this.#chunk.length) this.#post((currentFrame + from) / sampleRate)
    }
    return true
  }

  #post(end_s) {
    const samples = this.#chunk
    this.port.postMessage({ samples, end_s }, [samples.buffer])
    this.#chunk = new Float32Array(Math.round(sampleRate / 10))
    this.#filled = 0
  }
}

registerProcessor('stillhand-capture', Capture)
