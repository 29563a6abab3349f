/** Hands the microphone on in batches of 100 ms. Has no outputs: nothing is played back. */
class Capture extends AudioWorkletProcessor {
  constructor() {
    super()
    this.batch = new Float32Array(Math.round(sampleRate / 10))
    this.filled = 0
  }

  process(inputs) {
    const channel = inputs[0]?.[0]
    if (!channel) return true
    let from = 0
    while (from < channel.length) {
      const part = channel.subarray(from, from + this.batch.length - this.filled)
      this.batch.set(part, this.filled)
      this.filled += part.length
      from += part.length
      if (this.filled === this.batch.length) {
        this.port.postMessage(this.batch)
        this.batch = new Float32Array(this.batch.length)
        this.filled = 0
      }
    }
    return true
  }
}

registerProcessor('stillhand-capture', Capture)
