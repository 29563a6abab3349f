import { createEmitter } from '../../core/basics/emitter.ts'
import { Howler, type Howl } from 'howler'
import { CHIMES, type Sound } from '../../ports/sound.ts'
import { createAudibleContext } from './audibleContext.ts'
import { showSound } from './showSound.ts'
import { createSoundShelf } from './soundShelf.ts'

export interface HowlerOptions {
  /** Where `chimes` and `prompts` lie, with a slash at the end. */
  readonly base: string
  /** Folder of the recorded voice. */
  readonly voice: string
}

/** A sound that could not begin within this time is not played at all: said late, it would be wrong. */
const STALE_ms = 2000
/** Past the recorded length of a prompt, after which the recognizer's gate opens whatever the player says. */
const GRACE_ms = 500
const PROMPTS_KEPT = 24

interface Prompt {
  readonly howl: Howl
  id?: number
  audible?: boolean
  timer?: ReturnType<typeof setTimeout>
}

/** Chimes and recorded prompts through howler. One prompt at a time; chimes may sound over it. */
export function createHowlerSound({
  base,
  voice,
}: HowlerOptions): Sound & { setVoice(voice: string): void } {
  const speaking = createEmitter<boolean>()
  const troubles = createEmitter<string>()
  let silent = false
  let folder = voice
  let current: Prompt | undefined

  const emitHeldBack = (): void =>
    troubles.emit('The browser holds sounds back until the next touch or key.')
  const whenAudible = createAudibleContext(emitHeldBack)

  function played(howl: Howl, id: number): void {
    if (current?.howl !== howl || current.id !== id || current.audible) return
    current.audible = true
    clearTimeout(current.timer)
    current.timer = setTimeout(hush, howl.duration() * 1000 + GRACE_ms)
    speaking.emit(true)
  }

  function forget(): void {
    const last = current
    if (!last) return
    current = undefined
    clearTimeout(last.timer)
    if (last.audible) speaking.emit(false)
  }

  function hush(): void {
    const last = current
    if (last?.id !== undefined) last.howl.stop(last.id)
    forget()
  }

  const events = {
    played,
    ended: (howl: Howl, id: number) => {
      if (current?.howl === howl && current.id === id) forget()
    },
    loadFailed: (howl: Howl, path: string) => {
      if (current?.howl === howl) forget()
      troubles.emit(`The sound ${path} cannot be loaded.`)
    },
    // Only audio elements report this; howler frees them at the next touch or key.
    playFailed: (howl: Howl) => {
      emitHeldBack()
      howl.once('unlock', () => {
        if (current?.howl === howl) current.id = howl.play()
      })
    },
  }
  const chimes = createSoundShelf(base, CHIMES.length, events)
  const prompts = createSoundShelf(base, PROMPTS_KEPT, events)

  // A context put to sleep after half a minute of quiet, howler's habit, would delay the next warning.
  Howler.autoSuspend = false
  CHIMES.forEach((name) => chimes(`chimes/${name}.wav`))

  /** Begins once the sound is loaded and may be heard, unless that took too long. */
  function begin(howl: Howl, play: () => void): void {
    const asked_ms = performance.now()
    const start = (): void =>
      whenAudible(() => {
        if (!silent && performance.now() - asked_ms <= STALE_ms) play()
      })
    if (howl.state() === 'loaded') start()
    else howl.once('load', start)
  }

  return {
    chime(name) {
      if (silent) return
      showSound({ kind: 'chime', name })
      const howl = chimes(`chimes/${name}.wav`)
      begin(howl, () => void howl.play())
    },
    speak(key) {
      hush()
      if (silent) return
      showSound({ kind: 'prompt', name: key })
      const howl = prompts(`prompts/${folder}/${key}.ogg`)
      const prompt: Prompt = { howl }
      current = prompt
      prompt.timer = setTimeout(() => {
        if (current === prompt) hush()
      }, STALE_ms + GRACE_ms)
      begin(howl, () => {
        if (current === prompt) prompt.id = howl.play()
      })
    },
    hush,
    setVolume: (volume) => void Howler.volume(Math.max(0, Math.min(1, volume))),
    setSilent(next) {
      silent = next
      if (!silent) return
      hush()
      CHIMES.forEach((name) => chimes(`chimes/${name}.wav`).stop())
    },
    /** Takes effect with the next prompt. */
    setVoice(next: string) {
      folder = next
    },
    onSpeaking: speaking.observe,
    onTrouble: troubles.observe,
  }
}
