import { levelOf, RATE_Hz, type AudioListener, type AudioSource, type AudioTrouble } from './audioSource.ts' // prettier-ignore
import { audioTime } from './audioTime.ts'
import type { CapturedPiece } from './capturedPiece.ts'
import { LOOK_ms, micTrouble, type MicFacts } from './micTrouble.ts'

/**
 * Echo cancelling is on, because our own prompts play in the same room; the browser's noise suppression and gain
 * control are off, because they change speech in ways the model was not taught.
 */
const CONSTRAINTS: MediaTrackConstraints = {
  channelCount: 1,
  echoCancellation: true,
  noiseSuppression: false,
  autoGainControl: false,
}

/** A lost microphone is asked for again this often. */
const AGAIN_ms = 2000
/** The browser's question has stood open for this long: there is no microphone until it is answered. */
const ASKED_ms = 5000
const TOUCHES = ['pointerdown', 'keydown'] as const

/**
 * The microphone: opened again by itself when it comes back, resumed at the next touch when the browser holds it.
 * @param workletUrl address of `capture.worklet.js`
 */
export function createMicrophoneSource(
  workletUrl: string,
  now: () => number = () => performance.now(),
): AudioSource {
  let listener: AudioListener | undefined
  let context: AudioContext | undefined
  let track: MediaStreamTrack | undefined
  let looks: ReturnType<typeof setInterval> | undefined
  let told: AudioTrouble | undefined
  let opening = false
  let opened_ms = 0
  let facts: MicFacts = fresh()

  function fresh(): MicFacts {
    const at = now()
    return { refused: false, ended: false, muted: false, running: true, piece_ms: at, sound_ms: at }
  }

  function learn(more: Partial<MicFacts>): void {
    facts = { ...facts, ...more }
    const trouble = micTrouble(facts, now())
    if (trouble === told) return
    told = trouble
    listener?.onTrouble(trouble)
  }

  async function open(): Promise<void> {
    if (opening) return
    opening = true
    opened_ms = now()
    try {
      const stream = await navigator.mediaDevices.getUserMedia({ audio: CONSTRAINTS })
      if (listener) await connect(stream)
      else stream.getTracks().forEach((each) => each.stop())
    } catch {
      // A microphone that was there before and cannot be had again is lost rather than refused.
      learn(track ? { ended: true } : { refused: true })
    } finally {
      opening = false
    }
  }

  async function connect(stream: MediaStream): Promise<void> {
    await close()
    const audio = new AudioContext({ sampleRate: RATE_Hz })
    const mine = stream.getAudioTracks()[0]
    context = audio
    track = mine
    facts = { ...fresh(), running: runs(audio), muted: mine?.muted ?? false }
    mine?.addEventListener('ended', () => mine === track && learn({ ended: true }))
    mine?.addEventListener('mute', () => mine === track && learn({ muted: true }))
    mine?.addEventListener('unmute', () => mine === track && learn({ ...fresh() }))
    audio.addEventListener('statechange', () => {
      if (audio === context) learn(runs(audio) ? fresh() : { running: false })
    })
    await audio.audioWorklet.addModule(workletUrl)
    const node = new AudioWorkletNode(audio, 'stillhand-capture', { numberOfOutputs: 0 })
    const timeOf = audioTime()
    node.port.onmessage = ({ data }: MessageEvent<CapturedPiece>) => {
      if (audio === context) take(data, timeOf(data.end_s, now()))
    }
    audio.createMediaStreamSource(stream).connect(node)
    learn({})
  }

  function take({ samples }: CapturedPiece, mono_ms: number): void {
    const level_dBFS = levelOf(samples)
    const at = now()
    learn({ piece_ms: at, ...(level_dBFS > -Infinity ? { sound_ms: at } : {}) })
    listener?.onChunk({ samples, level_dBFS, mono_ms })
  }

  function look(): void {
    learn(opening && now() - opened_ms > ASKED_ms ? { refused: true } : {})
    if (told === 'microphoneLost' && now() - opened_ms >= AGAIN_ms) void open()
  }

  function plugged(): void {
    if (told === 'microphoneLost' || told === 'noMicrophone') void open()
  }

  /** Browsers let sound run only after the person has touched the page. */
  function touched(): void {
    if (context && !runs(context)) void context.resume()
  }

  async function close(): Promise<void> {
    track?.stop()
    const old = context
    context = undefined
    if (old && old.state !== 'closed') await old.close()
  }

  return {
    async start(next) {
      listener = next
      told = undefined
      facts = fresh()
      for (const kind of TOUCHES) addEventListener(kind, touched, true)
      navigator.mediaDevices?.addEventListener('devicechange', plugged)
      looks = setInterval(look, LOOK_ms)
      await open()
    },
    async stop() {
      listener = undefined
      clearInterval(looks)
      for (const kind of TOUCHES) removeEventListener(kind, touched, true)
      navigator.mediaDevices?.removeEventListener('devicechange', plugged)
      await close()
      track = undefined
    },
  }
}

const runs = (audio: AudioContext): boolean => audio.state === 'running'
