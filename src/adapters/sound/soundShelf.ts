import { Howl } from 'howler'

/** What a loaded sound reports; `id` tells one playing of it from another. */
export interface ShelfEvents {
  played(howl: Howl, id: number): void
  ended(howl: Howl, id: number): void
  loaded(howl: Howl, path: string): void
  loadFailed(howl: Howl, path: string): void
  playFailed(howl: Howl, path: string): void
}

export interface SoundShelf {
  (path: string): Howl
  /** Forgets every sound, so that each is loaded anew when it is asked for. */
  clear(): void
}

/** Loaded sounds by path. Beyond `most` the longest unused is let go, because decoded sound takes far more memory. */
export function createSoundShelf(base: string, most: number, events: ShelfEvents): SoundShelf {
  const howls = new Map<string, Howl>()

  function load(path: string): Howl {
    const howl = new Howl({
      src: [`${base}${path}`],
      onload: () => events.loaded(howl, path),
      onplay: (id) => events.played(howl, id),
      onend: (id) => events.ended(howl, id),
      onloaderror: () => {
        // Forgotten, so that the next time it is asked for it is fetched anew.
        howls.delete(path)
        howl.unload()
        events.loadFailed(howl, path)
      },
      onplayerror: () => events.playFailed(howl, path),
    })
    return howl
  }

  const shelf = (path: string): Howl => {
    const howl = howls.get(path) ?? load(path)
    howls.delete(path)
    howls.set(path, howl)
    for (const [oldPath, old] of howls) {
      if (howls.size <= most) break
      if (old.playing() || old === howl) continue
      howls.delete(oldPath)
      old.unload()
    }
    return howl
  }
  return Object.assign(shelf, { clear: () => howls.clear() })
}
