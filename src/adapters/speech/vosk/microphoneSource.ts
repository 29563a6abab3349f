import { RATE_Hz, type AudioListener, type AudioSource } from './audioSource.ts'

/** Told within two seconds: looked at this often. */
const LOOK_ms = 500
/** No sound at all for this long means that the microphone is muted or gone. */
const QUIET_ms = 1500

/**
 * The microphone through an audio worklet. Echo cancelling is on, because our own prompts play in the same room; the
 * browser's noise suppression and gain control are off, because they change speech in ways the model was not taught.
 */
export function microphoneSource(workletUrl: string): AudioSource {
  let close: (() => Promise<void>) | undefined

  async function start(listener: AudioListener): Promise<void> {
    let stream: MediaStream
    try {
      stream = await navigator.mediaDevices.getUserMedia({
        audio: {
          echoCancellation: true,
          noiseSuppression: false,
          autoGainControl: false,
          channelCount: 1,
        },
      })
    } catch (error) {
      listener.onTrouble('noMicrophone', error instanceof Error ? error.message : String(error))
      return
    }
    const context = new AudioContext({ sampleRate: RATE_Hz })
    await context.audioWorklet.addModule(workletUrl)
    const capture = new AudioWorkletNode(context, 'stillhand-capture', {
      numberOfInputs: 1,
      numberOfOutputs: 0,
    })
    context.createMediaStreamSource(stream).connect(capture)
    const track = stream.getAudioTracks()[0]
    let lastChunk_ms = performance.now()
    let lastSound_ms = performance.now()
    let reported: string | undefined

    capture.port.onmessage = ({ data }: MessageEvent<Float32Array>) => {
      lastChunk_ms = performance.now()
      // Even a silent room gives some noise; exact zeros come from a muted microphone.
      if (data.some((sample) => sample !== 0)) lastSound_ms = lastChunk_ms
      listener.onChunk(data, lastChunk_ms)
    }
    const report = (
      code: Parameters<AudioListener['onTrouble']>[0] | undefined,
      message = '',
    ): void => {
      if (reported === code) return
      reported = code
      if (code) listener.onTrouble(code, message)
      else listener.onWell()
    }
    const look = (): void => {
      const now = performance.now()
      if (track?.readyState === 'ended') report('microphoneLost', 'The microphone was taken away.')
      else if (context.state !== 'running')
        report('audioSuspended', 'The browser holds the sound back.')
      else if (track?.muted || now - lastSound_ms > QUIET_ms)
        report('microphoneMuted', 'Nothing comes from the microphone.')
      else if (now - lastChunk_ms > QUIET_ms) report('microphoneLost', 'No sound arrives.')
      else report(undefined)
    }
    const timer = setInterval(look, LOOK_ms)
    track?.addEventListener('ended', look)
    track?.addEventListener('mute', look)
    const wake = (): void => void context.resume()
    window.addEventListener('pointerdown', wake)
    window.addEventListener('keydown', wake)
    close = async () => {
      clearInterval(timer)
      window.removeEventListener('pointerdown', wake)
      window.removeEventListener('keydown', wake)
      stream.getTracks().forEach((each) => each.stop())
      capture.port.onmessage = null
      await context.close()
    }
  }

  return {
    start,
    stop: async () => {
      await close?.()
      close = undefined
    },
  }
}
