import { Howler, type Howl } from 'howler'
import { createEmitter } from '../../core/basics/emitter.ts'
import type { Clock } from '../../ports/clock.ts'
import type { Earpiece } from '../../ports/earpiece.ts'
import { CHIMES, type Chime, type Sound } from '../../ports/sound.ts'
import { createAlarmTest } from './alarmTest.ts'
import { createAudibleContext } from './audibleContext.ts'
import { createEarpiece } from './createEarpiece.ts'
import type { OutputDevices } from './outputDevices.ts'
import { sinkOf, type RoutedContext, type RoutedElement, type Sink } from './sink.ts'
import { showSound } from './showSound.ts'
import { createSoundHealth } from './soundHealth.ts'
import { createSoundShelf } from './soundShelf.ts'

export interface HowlerOptions {
  /** Where `chimes` and `prompts` lie, with a slash at the end. */
  readonly base: string
  /** Folder of the recorded voice. */
  readonly voice: string
  readonly clock: Clock
  /** What tells of the outputs of this machine; without it sound has one way only. */
  readonly devices?: OutputDevices | undefined
  readonly makeElement?: () => RoutedElement
}

/** A sound that could not begin within this time is not played at all: said late, it would be wrong. */
const STALE_ms = 2000
/** Past the recorded length of a prompt, after which the recognizer's gate opens whatever the player says. */
const GRACE_ms = 500
const PROMPTS_KEPT = 24
/** A chime that could not be loaded is fetched again this often: an alarm must not stay silent. */
const LOAD_AGAIN_ms = 10_000

interface Prompt {
  readonly howl: Howl
  id?: number
  audible?: boolean
  cancel?: () => void
}

/** Chimes and recorded prompts through howler. One prompt at a time; chimes may sound over it. */
export function createHowlerSound(
  options: HowlerOptions,
): Sound & { setVoice(voice: string): void; readonly earpiece: Earpiece } {
  const { base, clock, devices, makeElement = () => new Audio() } = options
  const speaking = createEmitter<boolean>()
  const health = createSoundHealth()
  const whenAudible = createAudibleContext(clock, health.setHeldBack, beginAnew)
  const alarmTest = createAlarmTest(clock, STALE_ms, () =>
    silent ? 'silent' : (health.trouble()?.code ?? 'chimesMissing'),
  )
  let silent = false
  let voice = options.voice
  let current: Prompt | undefined

  const sinks = new WeakMap<object, Sink>()
  const ear = createEarpiece({ clock, devices, sink: sinkNow, beginAnew, onUnsure: hush })

  /** Of the context that is there now: howler makes another one now and then, which begins at the loudspeaker. */
  function sinkNow(): Sink | undefined {
    const context = Howler.usingWebAudio ? (Howler.ctx as RoutedContext | null) : null
    if (!context) return undefined
    const known = sinks.get(context)
    if (known) return known
    const sink = sinkOf(context, Howler.masterGain, makeElement)
    if (sink) sinks.set(context, sink)
    return sink
  }

  const now = (): number => clock.read().mono_ms
  const after = (wait_ms: number, run: () => void): (() => void) =>
    clock.wakeAt(now() + wait_ms, run)

  function played(howl: Howl, id: number): void {
    health.setHeldBack(false)
    alarmTest.played(id)
    if (current?.howl !== howl || current.id !== id || current.audible) return
    current.audible = true
    current.cancel?.()
    current.cancel = after(howl.duration() * 1000 + GRACE_ms, hush)
    speaking.emit(true)
  }

  /** Howler makes another context, on the default output, and every sound is loaded into that. */
  function beginAnew(): void {
    forget()
    // Howler closes the old context once more, which one that is closed refuses.
    if (Howler.ctx.state === 'closed') Object.assign(Howler.ctx, { close: () => Promise.resolve() })
    Howler.unload()
    chimes.clear()
    prompts.clear()
    CHIMES.forEach((name) => chimes(chimePath(name)))
  }

  function forget(): void {
    const last = current
    if (!last) return
    current = undefined
    last.cancel?.()
    if (last.audible) speaking.emit(false)
  }

  function hush(): void {
    const last = current
    if (last?.id !== undefined) last.howl.stop(last.id)
    forget()
  }

  const playback = {
    played,
    ended: (howl: Howl, id: number) => {
      if (current?.howl === howl && current.id === id) forget()
    },
    // Only audio elements report this; howler frees them at the next touch or key.
    playFailed: (howl: Howl) => {
      health.setHeldBack(true)
      howl.once('unlock', () => {
        health.setHeldBack(false)
        if (current?.howl === howl && ear.maySpeak()) current.id = howl.play()
      })
    },
  }
  const chimes = createSoundShelf(base, CHIMES.length, {
    ...playback,
    loaded: (_, path) => health.setChime(path, true),
    loadFailed: (_, path) => {
      health.setChime(path, false)
      after(LOAD_AGAIN_ms, () => void chimes(path))
    },
  })
  const prompts = createSoundShelf(base, PROMPTS_KEPT, {
    ...playback,
    loaded: (_, path) => health.setPrompt(path, true),
    loadFailed: (howl, path) => {
      if (current?.howl === howl) forget()
      health.setPrompt(path, false)
    },
  })

  // A context put to sleep after half a minute of quiet, howler's habit, would delay the next warning.
  Howler.autoSuspend = false
  CHIMES.forEach((name) => chimes(chimePath(name)))

  /** Begins once the sound is loaded and may be heard, unless that took too long. */
  function begin(howl: Howl, play: () => void): void {
    const asked_ms = now()
    const start = (): void =>
      whenAudible(() => {
        if (!silent && now() - asked_ms <= STALE_ms) play()
      })
    if (howl.state() === 'loaded') start()
    else howl.once('load', start)
  }

  return {
    chime(name) {
      if (silent) return
      showSound({ kind: 'chime', name })
      const howl = chimes(chimePath(name))
      begin(howl, () => void howl.play())
    },
    speak(key) {
      hush()
      if (silent || !ear.maySpeak()) return
      showSound({ kind: 'prompt', name: key })
      const howl = prompts(`prompts/${voice}/${key}.ogg`)
      const prompt: Prompt = { howl }
      current = prompt
      prompt.cancel = after(STALE_ms + GRACE_ms, () => {
        if (current === prompt) hush()
      })
      begin(howl, () => {
        if (current !== prompt) return
        if (ear.maySpeak()) prompt.id = howl.play()
        else forget()
      })
    },
    hush,
    setVolume: (volume) => void Howler.volume(Math.max(0, Math.min(1, volume))),
    setSilent(next) {
      silent = next
      if (!silent) return
      hush()
      CHIMES.forEach((name) => chimes(chimePath(name)).stop())
    },
    /** Takes effect with the next prompt. */
    setVoice(next: string) {
      voice = next
    },
    test(name = 'timeUp') {
      if (silent || Howler.volume() === 0) return Promise.resolve('silent')
      const howl = chimes(chimePath(name))
      return alarmTest.run((begun) => begin(howl, () => begun(howl.play())))
    },
    onSpeaking: speaking.observe,
    onTrouble: health.onTrouble,
    earpiece: ear,
  }
}

const chimePath = (name: Chime): string => `chimes/${name}.wav`
