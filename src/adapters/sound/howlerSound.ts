import { Howl } from 'howler'
import { CHIMES, type Chime, type Sound } from '../../ports/sound.ts'

export interface HowlerOptions {
  /** Where `chimes` and `prompts` lie, with a slash at the end. */
  readonly base: string
  /** Folder of the recorded voice. */
  readonly voice: string
}

/** No prompt lasts longer; after this the recognizer's gate opens whatever the player says. */
const LONGEST_PROMPT_ms = 4000

/** Chimes and recorded prompts through howler. One prompt at a time; chimes may sound over it. */
export function howlerSound({
  base,
  voice,
}: HowlerOptions): Sound & { setVoice(voice: string): void } {
  const speaking = new Set<(speaking: boolean) => void>()
  const trouble = new Set<(message: string) => void>()
  const prompts = new Map<string, Howl>()
  let volume = 0.8
  let silent = false
  let folder = voice
  let current: { readonly howl: Howl; readonly timer: ReturnType<typeof setTimeout> } | undefined

  const tell = (message: string): void => trouble.forEach((listen) => listen(message))
  const load = (path: string): Howl => {
    const howl = new Howl({
      src: [`${base}${path}`],
      preload: true,
      onloaderror: () => tell(`The sound ${path} cannot be loaded.`),
      // Browsers hold sound back until the first touch or key; howler then goes on by itself.
      onplayerror: () => void howl.once('unlock', () => void howl.play()),
    })
    return howl
  }
  const chimes = new Map<Chime, Howl>(CHIMES.map((name) => [name, load(`chimes/${name}.wav`)]))

  function ended(howl: Howl): void {
    if (current?.howl !== howl) return
    clearTimeout(current.timer)
    current = undefined
    speaking.forEach((listen) => listen(false))
  }

  function hush(): void {
    const now = current
    if (!now) return
    ended(now.howl)
    now.howl.stop()
  }

  function prompt(key: string): Howl {
    const path = `prompts/${folder}/${key}.ogg`
    const known = prompts.get(path)
    if (known) return known
    const howl = load(path)
    howl.on('end', () => ended(howl))
    howl.on('loaderror', () => ended(howl))
    prompts.set(path, howl)
    return howl
  }

  return {
    chime(name) {
      if (silent) return
      const howl = chimes.get(name)
      howl?.volume(volume)
      howl?.play()
    },
    speak(key) {
      hush()
      if (silent) return
      const howl = prompt(key)
      current = { howl, timer: setTimeout(() => ended(howl), LONGEST_PROMPT_ms) }
      speaking.forEach((listen) => listen(true))
      howl.volume(volume)
      howl.play()
    },
    hush,
    setVolume(next) {
      volume = Math.max(0, Math.min(1, next))
    },
    setSilent(next) {
      silent = next
      if (silent) hush()
    },
    setVoice(next) {
      folder = next
    },
    onSpeaking(listener) {
      speaking.add(listener)
      return () => void speaking.delete(listener)
    },
    onTrouble(listener) {
      trouble.add(listener)
      return () => void trouble.delete(listener)
    },
  }
}
