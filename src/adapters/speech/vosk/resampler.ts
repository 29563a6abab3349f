/** Crossings of zero of the sinc on each side: the transition from pass to stop is about 1.4 kHz wide at 48 kHz in. */
const CROSSINGS = 32
/** Middle of that transition, in parts of the lower of the two Nyquist frequencies: above it all is stopped. */
const CUTOFF = 0.92

/**
 * Changes the rate of audio that comes in chunks, with a sinc under a Blackman window (side lobes below -74 dB). The
 * output lags behind by the half of the window, 2 ms at 48 kHz in.
 * @param from_Hz, to_Hz whole numbers
 */
export function createResampler(
  from_Hz: number,
  to_Hz: number,
): (samples: Float32Array) => Float32Array<ArrayBuffer> {
  const common = greatestCommonDivisor(from_Hz, to_Hz)
  /** An output sample stands `step / phases` input samples after the one before it. */
  const step = from_Hz / common
  const phases = to_Hz / common
  /** Cycles for each input sample. */
  const cutoff = (CUTOFF * Math.min(1, to_Hz / from_Hz)) / 2
  const half = Math.ceil(CROSSINGS / (2 * cutoff))
  const kernels: Float32Array[] = []
  let rest = new Float32Array(half)
  /** Place of the next output sample in `rest` and what follows it, in parts of `phases`. */
  let next = half * phases

  const kernelOf = (phase: number): Float32Array =>
    (kernels[phase] ??= Float32Array.from({ length: 2 * half }, (_, i) =>
      windowedSinc(i - half + 1 - phase / phases, cutoff, half),
    ))

  return (samples) => {
    const all = new Float32Array(rest.length + samples.length)
    all.set(rest)
    all.set(samples, rest.length)
    const out: number[] = []
    for (; Math.floor(next / phases) + half < all.length; next += step) {
      const first = Math.floor(next / phases) - half + 1
      let sum = 0
      kernelOf(next % phases).forEach((weight, i) => (sum += weight * (all[first + i] ?? 0)))
      out.push(sum)
    }
    const done = Math.floor(next / phases) - half
    rest = all.slice(done)
    next -= done * phases
    return Float32Array.from(out)
  }
}

/** At `x` input samples from the middle of a window that reaches `half` to each side. */
function windowedSinc(x: number, cutoff: number, half: number): number {
  if (Math.abs(x) >= half) return 0
  const sinc = x === 0 ? 1 : Math.sin(2 * Math.PI * cutoff * x) / (2 * Math.PI * cutoff * x)
  const turn = (Math.PI * x) / half
  return 2 * cutoff * sinc * (0.42 + 0.5 * Math.cos(turn) + 0.08 * Math.cos(2 * turn))
}

const greatestCommonDivisor = (a: number, b: number): number =>
  b === 0 ? a : greatestCommonDivisor(b, a % b)
