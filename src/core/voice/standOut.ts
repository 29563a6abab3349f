/** The background is what was heard in this time before the speech, ms. */
const BACKGROUND_ms = 3000
/** Less of it says nothing of the background, ms. */
const LEAST_ms = 500
/** The moment before speech begins, ms. */
const BEFORE_ms = 150
/** Who talks on behind it is heard in this time before it, ms. */
const TALK_ms = 500
/** As loud as its louder parts: a pause makes talk no softer. */
const LOUD = 0.9
/** Digital silence counts as this level. */
const SILENCE_dBFS = -100

/** How a stretch of speech stands out of what was heard before it. */
export interface StandOut {
  /** Loudness, dB below full scale. */
  readonly speech_dBFS: number
  /** Above the running background of the last seconds, which is also the talk in it, dB. */
  readonly above_dB: number
  /** Above the loudest of the moment before it began, dB. */
  readonly onset_dB: number
  /** Loudness of the half second before it, against it, dB. */
  readonly before_dB: number
}

/**
 * Measures speech against what was heard before it.
 * @param frames_dBFS levels of short frames, oldest first
 * @param start first frame of the speech
 * @param end its last frame
 * @returns `undefined` where too little was heard before it
 */
export function standOut(
  frames_dBFS: readonly number[],
  start: number,
  end: number,
  frame_ms: number,
): StandOut | undefined {
  if (start < LEAST_ms / frame_ms || end < start) return undefined
  const background = frames_dBFS.slice(Math.max(0, start - BACKGROUND_ms / frame_ms), start)
  const speech_dBFS = loudOf(frames_dBFS.slice(start, end + 1))
  return {
    speech_dBFS,
    above_dB: speech_dBFS - loudOf(background),
    before_dB: loudOf(background.slice(-TALK_ms / frame_ms)) - speech_dBFS,
    onset_dB: speech_dBFS - Math.max(SILENCE_dBFS, ...background.slice(-BEFORE_ms / frame_ms)),
  }
}

function loudOf(frames: readonly number[]): number {
  const sorted = [...frames].sort((a, b) => a - b)
  return Math.max(SILENCE_dBFS, sorted[Math.floor((sorted.length - 1) * LOUD)] ?? SILENCE_dBFS)
}
