import { createEmitter } from '../../core/basics/emitter.ts'
import type { SoundTrouble } from '../../ports/sound.ts'

/** What is known to keep sounds from being heard, for as long as it lasts. */
export interface SoundHealth {
  /** The browser holds all sounds back until the page is touched. */
  readonly setHeldBack: (heldBack: boolean) => void
  /** Whether a chime could be loaded when it was last tried. */
  setChime(path: string, loaded: boolean): void
  /** The same for the prompt that was asked for last: one that loads shows that prompts are there. */
  setPrompt(path: string, loaded: boolean): void
  /** The gravest. */
  trouble(): SoundTrouble | undefined
  readonly onTrouble: (observer: (trouble: SoundTrouble | undefined) => void) => () => void
}

export function createSoundHealth(): SoundHealth {
  const troubles = createEmitter<SoundTrouble | undefined>()
  const missingChimes = new Set<string>()
  let missingPrompt: string | undefined
  let heldBack = false
  let told: SoundTrouble | undefined

  function trouble(): SoundTrouble | undefined {
    const [chime] = missingChimes
    if (heldBack) return { code: 'heldBack' }
    if (chime !== undefined) return { code: 'chimesMissing', detail: chime }
    if (missingPrompt !== undefined) return { code: 'promptsMissing', detail: missingPrompt }
    return undefined
  }

  function update(): void {
    const now = trouble()
    if (now?.code === told?.code && now?.detail === told?.detail) return
    told = now
    troubles.emit(now)
  }

  return {
    setHeldBack(next) {
      heldBack = next
      update()
    },
    setChime(path, loaded) {
      if (loaded) missingChimes.delete(path)
      else missingChimes.add(path)
      update()
    },
    setPrompt(path, loaded) {
      missingPrompt = loaded ? undefined : path
      update()
    },
    trouble,
    onTrouble: troubles.observe,
  }
}
