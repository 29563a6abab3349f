import { defined } from '../../../core/basics/defined.ts'
import type { Clock } from '../../../ports/clock.ts'
import { levelOf, type AudioObserver, type AudioSource, type AudioTrouble } from './audioSource.ts'
import { openCapture, stopTracks, type Capture } from './capture.ts'
import { createAudioTime, type CapturedChunk } from './capturedChunk.ts'
import { watchMicPermission, type MicPermissionWatch } from './micPermission.ts'
import { mayTryAgain, type RetryTrigger } from './micRetry.ts'
import { micTrouble, POLL_ms, whyWithheld, type MicFacts } from './micTrouble.ts'
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

/** Time to answer the browser's question; after it the microphone counts as not allowed until there is an answer. */
const ASKED_ms = 10_000
const TOUCHES = ['pointerdown', 'keydown'] as const

/**
 * The microphone: opened again by itself when it comes back or is allowed, resumed at the next touch when the browser
 * holds it.
 * @param workletUrl address of `capture.worklet.js`
 */
export function createMicrophoneSource(workletUrl: string, clock: Clock): AudioSource {
  const now = (): number => clock.read().mono_ms
  let observer: AudioObserver | undefined
  let capture: Capture | undefined
  let hadMicrophone = false
  let permission: MicPermissionWatch | undefined
  let ends: readonly (() => void)[] = []
  let notified: AudioTrouble | undefined
  let opening: Promise<void> | undefined
  let asked_ms = 0
  let facts: MicFacts = fresh()

  function fresh(): MicFacts {
    const at = now()
    const well = { withheld: undefined, ended: false, muted: false, running: true }
    return { ...well, chunk_ms: at, sound_ms: at }
  }

  function update(more: Partial<MicFacts>): void {
    facts = { ...facts, ...more }
    const trouble = micTrouble(facts, now())
    if (trouble === notified) return
    notified = trouble
    observer?.onTrouble(trouble)
  }

  /** Asks for the microphone; while a question is open nobody is asked a second time. */
  const open = (): Promise<void> =>
    (opening ??= ask().finally(() => {
      opening = undefined
    }))

  async function ask(): Promise<void> {
    asked_ms = now()
    try {
      // Pages that came over plain http are given no such thing.
      if (!isSecureContext) return update({ withheld: 'insecurePage' })
      const stream = await navigator.mediaDevices.getUserMedia({ audio: CONSTRAINTS })
      if (observer) await connect(stream)
      else stopTracks(stream)
    } catch (error) {
      update(whyWithheld(error, hadMicrophone))
    }
  }

  async function connect(stream: MediaStream): Promise<void> {
    await close()
    const timeOf = createAudioTime()
    const opened = await openCapture(stream, workletUrl, (chunk) => {
      if (opened === capture) onCaptured(chunk, timeOf(chunk.end_s, now()))
    })
    if (!observer) return opened.close()
    capture = opened
    hadMicrophone = true
    const { context } = opened
    const track = stream.getAudioTracks()[0]
    const whileOpen = (run: () => void) => () => {
      if (opened === capture) run()
    }
    track?.addEventListener('ended', whileOpen(onEnded))
    track?.addEventListener(
      'mute',
      whileOpen(() => update({ muted: true })),
    )
    track?.addEventListener(
      'unmute',
      whileOpen(() => update(fresh())),
    )
    context.addEventListener(
      'statechange',
      whileOpen(() => update(runs(context) ? fresh() : { running: false })),
    )
    update({ ...fresh(), running: runs(context), muted: track?.muted ?? false })
  }

  function onCaptured({ samples }: CapturedChunk, mono_ms: number): void {
    const level_dBFS = levelOf(samples)
    const at = now()
    update(defined({ chunk_ms: at, sound_ms: level_dBFS > -Infinity ? at : undefined }))
    observer?.onChunk({ samples, level_dBFS, mono_ms })
  }

  /** Pulled out, or no longer allowed: both end it, and only the browser's own word tells them apart. */
  function onEnded(): void {
    update({ ended: true })
    void permission?.ask().then(onPermission)
  }

  function onPermission(): void {
    const may = permission?.now()
    if (may === 'granted') tryAgain('permissionChange')
    else if (facts.ended && may !== 'unknown') update({ withheld: 'notAllowed' })
  }

  function poll(): void {
    if (!opening) update({})
    else if (now() - asked_ms > ASKED_ms) update({ withheld: 'notAllowed' })
    if (notified === 'notAllowed') void permission?.ask()
    tryAgain('timer')
  }

  function tryAgain(trigger: RetryTrigger): void {
    const may = permission?.now() ?? 'unknown'
    if (observer && !opening && mayTryAgain(trigger, notified, may, now() - asked_ms)) void open()
  }

  /** Browsers let sound run only after the person has touched the page. */
  function onTouch(): void {
    if (capture && !runs(capture.context)) void capture.context.resume()
    tryAgain('touch')
  }

  async function close(): Promise<void> {
    const old = capture
    capture = undefined
    await old?.close()
  }

  function watchPage(): readonly (() => void)[] {
    const onDeviceChange = (): void => tryAgain('deviceChange')
    for (const kind of TOUCHES) addEventListener(kind, onTouch, true)
    navigator.mediaDevices?.addEventListener('devicechange', onDeviceChange)
    return [
      every(clock, POLL_ms, poll),
      () => TOUCHES.forEach((kind) => removeEventListener(kind, onTouch, true)),
      () => navigator.mediaDevices?.removeEventListener('devicechange', onDeviceChange),
      () => permission?.end(),
    ]
  }

  return {
    async start(next) {
      observer = next
      notified = undefined
      facts = fresh()
      ends = watchPage()
      void watchMicPermission(onPermission).then((watch) => {
        if (observer === next) permission = watch
        else watch.end()
      })
      await open()
    },
    async stop() {
      observer = undefined
      ends.forEach((end) => end())
      permission = undefined
      await close()
      hadMicrophone = false
    },
  }
}

const runs = (audio: AudioContext): boolean => audio.state === 'running'
