import { RATE_Hz } from './audioSource.ts'
import type { CapturedChunk } from './capturedChunk.ts'
import { createResampler } from './resampler.ts'

/** The audio graph behind a microphone. */
export interface Capture {
  readonly context: AudioContext
  /** Ends the graph and lets the microphone go. */
  close(): Promise<void>
}

/**
 * Takes the audio of a microphone in chunks of 100 ms at 16 kHz. Browsers that do not let a microphone of another rate
 * into such a graph get one at the microphone's own rate, and its chunks are brought to 16 kHz here.
 * @throws what the browser throws when it cannot take the audio either way; the microphone is let go
 */
export async function openCapture(
  stream: MediaStream,
  workletUrl: string,
  onChunk: (chunk: CapturedChunk) => void,
): Promise<Capture> {
  const { context, source } = openGraph(stream)
  const close = async (): Promise<void> => {
    stopTracks(stream)
    if (context.state !== 'closed') await context.close()
  }
  try {
    await context.audioWorklet.addModule(workletUrl)
    const node = new AudioWorkletNode(context, 'stillhand-capture', { numberOfOutputs: 0 })
    const resample =
      context.sampleRate === RATE_Hz ? undefined : createResampler(context.sampleRate, RATE_Hz)
    node.port.onmessage = ({ data }: MessageEvent<CapturedChunk>) =>
      onChunk(resample ? { ...data, samples: resample(data.samples) } : data)
    source.connect(node)
  } catch (error) {
    await close()
    throw error
  }
  return { context, close }
}

export const stopTracks = (stream: MediaStream): void =>
  stream.getTracks().forEach((track) => track.stop())

function openGraph(stream: MediaStream): {
  readonly context: AudioContext
  readonly source: AudioNode
} {
  let refusal: unknown
  for (const options of [{ sampleRate: RATE_Hz }, {}]) {
    let context: AudioContext | undefined
    try {
      context = new AudioContext(options)
      return { context, source: context.createMediaStreamSource(stream) }
    } catch (error) {
      refusal = error
      void context?.close()
    }
  }
  stopTracks(stream)
  throw refusal
}
