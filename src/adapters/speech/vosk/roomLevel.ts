/** Levels of the last 10 s, one for each 100 ms. */
const REMEMBERED = 100
/** Speech is as loud as the loudest chunk of the last second. */
const SPEECH = 10
/** Chunks by which the room is told to be too loud: longer than any pause between words is rare. */
const LOUD = 15
/** Enough to speak of a room at all. */
const ENOUGH = 10

export interface RoomLevel {
  /** Takes the level of the next 100 ms, dB below full scale. */
  add(level_dBFS: number): void
  /** Speech above the room, dB; `undefined` until enough of the room is known. */
  above_dB(): number | undefined
  /** Without a pause louder than what can be heard over. */
  tooLoud(): boolean
}

/**
 * Tells the room from the speech in it. The room is what is left in the pauses: the level that a tenth of the last
 * 10 s stays below. It is too loud when no chunk of the last 1.5 s is below the limit, and loud no more once one is
 * 3 dB below it, so that the warning does not flicker.
 */
export function createRoomLevel(limit_dBFS: number): RoomLevel {
  let levels: readonly number[] = []
  let loud = false
  return {
    add(level_dBFS) {
      levels = [...levels.slice(1 - REMEMBERED), Math.max(level_dBFS, -100)]
      const quietest = Math.min(...levels.slice(-LOUD))
      if (levels.length >= LOUD) loud = quietest > (loud ? limit_dBFS - 3 : limit_dBFS)
    },
    above_dB() {
      if (levels.length < ENOUGH) return undefined
      const sorted = [...levels].sort((a, b) => a - b)
      const room = sorted[Math.floor(sorted.length / 10)] ?? 0
      return Math.max(...levels.slice(-SPEECH)) - room
    },
    tooLoud: () => loud,
  }
}
