import { defined } from '../../../core/basics/defined.ts'
import type { Clock } from '../../../ports/clock.ts'
import { levelOf, RATE_Hz, type AudioObserver, type AudioSource, type AudioTrouble } from './audioSource.ts' // prettier-ignore
import { createAudioTime, type CapturedChunk } from './capturedChunk.ts'
import { micTrouble, POLL_ms, type MicFacts } from './micTrouble.ts'
import { every } from './waking.ts'

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
export function createMicrophoneSource(workletUrl: string, clock: Clock): AudioSource {
  const now = (): number => clock.read().mono_ms
  let observer: AudioObserver | undefined
  let context: AudioContext | undefined
  let track: MediaStreamTrack | undefined
  let endPolls: (() => void) | undefined
  let notified: AudioTrouble | undefined
  let opening = false
  let opened_ms = 0
  let facts: MicFacts = fresh()

  function fresh(): MicFacts {
    const at = now()
    return { refused: false, ended: false, muted: false, running: true, chunk_ms: at, sound_ms: at }
  }

  function update(more: Partial<MicFacts>): void {
    facts = { ...facts, ...more }
    const trouble = micTrouble(facts, now())
    if (trouble === notified) return
    notified = trouble
    observer?.onTrouble(trouble)
  }

  async function open(): Promise<void> {
    if (opening) return
    opening = true
    opened_ms = now()
    try {
      const stream = await navigator.mediaDevices.getUserMedia({ audio: CONSTRAINTS })
      if (observer) await connect(stream)
      else stream.getTracks().forEach((each) => each.stop())
    } catch {
      // A microphone that was there before and cannot be had again is lost rather than refused.
      update(track ? { ended: true } : { refused: true })
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
    mine?.addEventListener('ended', () => mine === track && update({ ended: true }))
    mine?.addEventListener('mute', () => mine === track && update({ muted: true }))
    mine?.addEventListener('unmute', () => mine === track && update({ ...fresh() }))
    audio.addEventListener('statechange', () => {
      if (audio === context) update(runs(audio) ? fresh() : { running: false })
    })
    await audio.audioWorklet.addModule(workletUrl)
    const node = new AudioWorkletNode(audio, 'stillhand-capture', { numberOfOutputs: 0 })
    const timeOf = createAudioTime()
    node.port.onmessage = ({ data }: MessageEvent<CapturedChunk>) => {
      if (audio === context) onCaptured(data, timeOf(data.end_s, now()))
    }
    audio.createMediaStreamSource(stream).connect(node)
    update({})
  }

  function onCaptured({ samples }: CapturedChunk, mono_ms: number): void {
    const level_dBFS = levelOf(samples)
    const at = now()
    update(defined({ chunk_ms: at, sound_ms: level_dBFS > -Infinity ? at : undefined }))
    observer?.onChunk({ samples, level_dBFS, mono_ms })
  }

  function poll(): void {
    update(opening && now() - opened_ms > ASKED_ms ? { refused: true } : {})
    if (notified === 'microphoneLost' && now() - opened_ms >= AGAIN_ms) void open()
  }

  function onDeviceChange(): void {
    if (notified === 'microphoneLost' || notified === 'noMicrophone') void open()
  }

  /** Browsers let sound run only after the person has touched the page. */
  function onTouch(): void {
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
      observer = next
      notified = undefined
      facts = fresh()
      for (const kind of TOUCHES) addEventListener(kind, onTouch, true)
      navigator.mediaDevices?.addEventListener('devicechange', onDeviceChange)
      endPolls = every(clock, POLL_ms, poll)
      await open()
    },
    async stop() {
      observer = undefined
      endPolls?.()
      for (const kind of TOUCHES) removeEventListener(kind, onTouch, true)
      navigator.mediaDevices?.removeEventListener('devicechange', onDeviceChange)
      await close()
      track = undefined
    },
  }
}

const runs = (audio: AudioContext): boolean => audio.state === 'running'
