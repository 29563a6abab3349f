/** A mono sound; samples within -1..1. */
export interface Sound {
  readonly rate_Hz: number
  readonly samples: Float32Array
}

/**
 * Reads a 16-bit PCM mono WAV file.
 * @throws Error when the file is of another kind.
 */
export function readWav(bytes: Uint8Array): Sound {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const tag = (at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4))
  if (tag(0) !== 'RIFF' || tag(8) !== 'WAVE') throw new Error('Not a WAV file.')
  let rate_Hz = 0
  for (let at = 12; at + 8 <= bytes.length;) {
    const size = view.getUint32(at + 4, true)
    if (tag(at) === 'fmt ') {
      const plain = [1, 1, 16]
      const found = [at + 8, at + 10, at + 22].map((place) => view.getUint16(place, true))
      if (found.join() !== plain.join()) throw new Error('Not a mono 16-bit PCM file.')
      rate_Hz = view.getUint32(at + 12, true)
    }
    if (tag(at) === 'data') {
      const count = Math.floor(Math.min(size, bytes.length - at - 8) / 2)
      const samples = Float32Array.from(
        { length: count },
        (_, i) => view.getInt16(at + 8 + 2 * i, true) / 32768,
      )
      return { rate_Hz, samples }
    }
    at += 8 + size + (size % 2)
  }
  throw new Error('The WAV file has no sound in it.')
}

/** A 16-bit PCM mono WAV file; what is louder than full scale is clipped. */
export function writeWav({ rate_Hz, samples }: Sound): Uint8Array {
  const bytes = new Uint8Array(44 + 2 * samples.length)
  const view = new DataView(bytes.buffer)
  const tag = (at: number, text: string): void =>
    [...text].forEach((letter, i) => view.setUint8(at + i, letter.charCodeAt(0)))
  tag(0, 'RIFF')
  view.setUint32(4, 36 + 2 * samples.length, true)
  tag(8, 'WAVEfmt ')
  view.setUint32(16, 16, true)
  view.setUint16(20, 1, true)
  view.setUint16(22, 1, true)
  view.setUint32(24, rate_Hz, true)
  view.setUint32(28, 2 * rate_Hz, true)
  view.setUint16(32, 2, true)
  view.setUint16(34, 16, true)
  tag(36, 'data')
  view.setUint32(40, 2 * samples.length, true)
  samples.forEach((sample, i) => {
    const clipped = Math.max(-1, Math.min(1, sample))
    view.setInt16(44 + 2 * i, Math.round(clipped * 32767), true)
  })
  return bytes
}
