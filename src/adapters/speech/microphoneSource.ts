import { audioTime } from './audioTime.ts'
import { levelOf, RATE_Hz, type AudioListener, type AudioSource, type AudioTrouble } from './audioSource.ts' // prettier-ignore
import type { CapturedPiece } from './capture.worklet.ts'
import { LOOK_ms, micTrouble, type MicFacts } from './micTrouble.ts'

export interface MicrophoneOptions {
  /** Address of the built `capture.worklet.ts`. */
  readonly workletUrl: string
  /** Monotonic ms. */
  now(): number
  readonly constraints?: MediaTrackConstraints
}

/** Our own prompts are taken out of the sound by the browser; the rest is left for the recognizer to judge. */
const CONSTRAINTS: MediaTrackConstraints = {
  channelCount: 1,
  echoCancellation: true,
  noiseSuppression: false,
  autoGainControl: true,
}

/** A lost microphone is asked for again this often. */
const AGAIN_ms = 2000

/** The microphone, opened again by itself when it comes back, and resumed at the next touch when the browser holds it. */
export function microphoneSource(options: MicrophoneOptions): AudioSource {
  const { now } = options
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
      const stream = await navigator.mediaDevices.getUserMedia({
        audio: options.constraints ?? CONSTRAINTS,
      })
      if (!listener) {
        stream.getTracks().forEach((each) => each.stop())
        return
      }
      await connect(stream)
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
    context = audio
    track = stream.getAudioTracks()[0]
    const mine = track
    facts = { ...fresh(), running: audio.state === 'running', muted: mine?.muted ?? false }
    mine?.addEventListener('ended', () => mine === track && learn({ ended: true }))
    mine?.addEventListener('mute', () => mine === track && learn({ muted: true }))
    mine?.addEventListener('unmute', () => mine === track && learn({ muted: false }))
    audio.addEventListener('statechange', () => {
      if (audio === context) learn(runs(audio) ? { ...fresh(), muted: facts.muted } : { running: false })
    })
    await audio.audioWorklet.addModule(options.workletUrl)
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
    learn({ piece_ms: at, running: true, ...(level_dBFS > -Infinity ? { sound_ms: at } : {}) })
    listener?.onChunk({ samples, level_dBFS, mono_ms })
  }

  function look(): void {
    learn({})
    const gone = told === 'microphoneLost' || told === 'noMicrophone'
    if (gone && now() - opened_ms >= AGAIN_ms) void open()
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
      for (const kind of ['pointerdown', 'keydown']) addEventListener(kind, touched, true)
      looks = setInterval(look, LOOK_ms)
      await open()
    },
    async stop() {
      listener = undefined
      clearInterval(looks)
      for (const kind of ['pointerdown', 'keydown']) removeEventListener(kind, touched, true)
      await close()
      track = undefined
    },
  }
}

const runs = (audio: AudioContext): boolean => audio.state === 'running'
