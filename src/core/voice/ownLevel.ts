/** So many of our own phrases are remembered; fewer than `ENOUGH` say nothing. */
const REMEMBERED = 8
const ENOUGH = 3

/** Loudness of the phrases of the person at the chair, dB below full scale, the latest last. */
export type OwnLevels = readonly number[]

/** Takes the loudness of a phrase that was acted on. */
export const withOwn = (levels: OwnLevels, speech_dBFS: number): OwnLevels =>
  [...levels, speech_dBFS].slice(-REMEMBERED)

/** How loud that person is here, dB below full scale; `undefined` until a few phrases were heard. */
export function ownLevel(levels: OwnLevels): number | undefined {
  if (levels.length < ENOUGH) return undefined
  const sorted = [...levels].sort((a, b) => a - b)
  return sorted[Math.floor((sorted.length - 1) / 2)]
}
