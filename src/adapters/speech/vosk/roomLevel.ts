/** Levels of the last 10 s, one for each 100 ms. */
const REMEMBERED = 100
/** Speech is as loud as the loudest piece of the last second. */
const SPEECH = 10
/** Pieces by which the room is told to be too loud: longer than any pause between words is rare. */
const LOUD = 15
/** Enough to speak of a room at all. */
const ENOUGH = 10

/** Speech has ended when the sound is this much below the loudest of the last second, dB. */
const QUIET_dB = 10
/** The pause after speech is counted in pieces of this length: shorter than a closed consonant. */
export const FRAME_ms = 20

export interface RoomLevel {
  /** Takes the level of the next 100 ms, and of each `FRAME_ms` of them, dB below full scale. */
  add(level_dBFS: number, frames_dBFS?: readonly number[]): void
  /** Speech above the room, dB; `undefined` until enough of the room is known. */
  above_dB(): number | undefined
  /** How long it has been quiet after speech, ms: 0 while somebody speaks. */
  quiet_ms(): number
  /** Without a pause louder than what can be heard over. */
  tooLoud(): boolean
}

/**
 * Tells the room from the speech in it. The room is what is left in the pauses: the level that a tenth of the last
 * 10 s stays below. It is too loud when no piece of the last 1.5 s is below the limit, and loud no more once one is
 * 3 dB below it, so that the warning does not flicker.
 */
export function roomLevel(limit_dBFS: number): RoomLevel {
  let levels: readonly number[] = []
  let loud = false
  let quiet_ms = 0
  return {
    add(level_dBFS, frames_dBFS = []) {
      levels = [...levels.slice(1 - REMEMBERED), Math.max(level_dBFS, -100)]
      const limit = Math.max(...levels.slice(-SPEECH)) - QUIET_dB
      const lastLoud = frames_dBFS.findLastIndex((frame) => frame >= limit)
      const since_ms = (frames_dBFS.length - 1 - lastLoud) * FRAME_ms
      quiet_ms = lastLoud >= 0 ? since_ms : quiet_ms + since_ms
      const quietest = Math.min(...levels.slice(-LOUD))
      if (levels.length >= LOUD) loud = quietest > (loud ? limit_dBFS - 3 : limit_dBFS)
    },
    above_dB() {
      if (levels.length < ENOUGH) return undefined
      const sorted = [...levels].sort((a, b) => a - b)
      const room = sorted[Math.floor(sorted.length / 10)] ?? 0
      return Math.max(...levels.slice(-SPEECH)) - room
    },
    quiet_ms: () => quiet_ms,
    tooLoud: () => loud,
  }
}
