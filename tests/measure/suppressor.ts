import { createResampler } from '../../src/adapters/speech/vosk/resampler.ts'
import { errorText } from '../../src/core/basics/errorText.ts'
import { RATE_Hz } from './measureInput.ts'

/** Goes on with the next piece of one stream, 16 kHz; what comes out is whatever is done by then, in order. */
export type Suppress = (samples: Float32Array) => Float32Array

/** RNNoise knows this rate alone, takes frames of 10 ms and samples in the range of 16 bits (its `rnnoise.h`). */
const WIDE_Hz = 48_000
const FRAME = 480
const FULL_SCALE = 32_768

const load = () => import('@jitsi/rnnoise-wasm/dist/rnnoise-sync.js')

/**
 * RNNoise 0.2 between two changes of the rate, for one stream. It carries its own model and fetches nothing.
 * @throws Error in a sentence where it cannot run
 */
export async function loadSuppressor(module: typeof load = load): Promise<Suppress> {
  try {
    const rnnoise = (await module()).default()
    await rnnoise.ready
    const state = rnnoise._rnnoise_create(0)
    const place = rnnoise._malloc(FRAME * Float32Array.BYTES_PER_ELEMENT)
    return inFrames((frame) => {
      const at = place / Float32Array.BYTES_PER_ELEMENT
      rnnoise.HEAPF32.set(
        frame.map((sample) => FULL_SCALE * sample),
        at,
      )
      rnnoise._rnnoise_process_frame(state, place, place)
      return rnnoise.HEAPF32.slice(at, at + FRAME).map((sample) => sample / FULL_SCALE)
    })
  } catch (error) {
    throw new Error(`The noise suppressor cannot be loaded: ${errorText(error)}`, { cause: error })
  }
}

function inFrames(process: (frame: Float32Array) => Float32Array): Suppress {
  const widen = createResampler(RATE_Hz, WIDE_Hz)
  const narrow = createResampler(WIDE_Hz, RATE_Hz)
  let rest = new Float32Array(0)
  return (samples) => {
    const wide = widen(samples)
    const all = new Float32Array(rest.length + wide.length)
    all.set(rest)
    all.set(wide, rest.length)
    const done = all.length - (all.length % FRAME)
    for (let at = 0; at < done; at += FRAME) all.set(process(all.subarray(at, at + FRAME)), at)
    rest = all.slice(done)
    return narrow(all.subarray(0, done))
  }
}
