import { median } from './judgeMic.ts'

/** What one microphone check measured, in whole dB below full scale. */
export interface MicLevels {
  readonly room_dBFS: number
  readonly speech_dBFS: number
}

/** How a check differs from those before it. `by_dB` is above 0. */
export interface LevelChange {
  readonly kind: 'softer' | 'louderRoom'
  readonly by_dB: number
}

/** Fewer checks than this are not called usual; a smaller difference is not told. Our choice, no source. */
const LEAST_CHECKS = 3
const LEAST_dB = 6

/** The levels of a check as they are kept; `undefined` where nothing was heard by which to tell the voice. */
export function levelsOf(room_dBFS: number, speech_dBFS: readonly number[]): MicLevels | undefined {
  const speech = median(speech_dBFS.filter(Number.isFinite))
  if (speech === undefined || !Number.isFinite(room_dBFS)) return undefined
  return { room_dBFS: inRange(room_dBFS), speech_dBFS: inRange(speech) }
}

/** What microphones give: silence of sixteen bits is near -96, full scale is 0. */
export const LEVEL_RANGE_dBFS = [-120, 0] as const
const inRange = (level_dBFS: number): number => {
  const [least, most] = LEVEL_RANGE_dBFS
  // No minus zero, which JSON would not keep.
  return Math.round(Math.min(most, Math.max(least, level_dBFS))) + 0
}

/** The middle of some checks; `undefined` of none. */
function usualLevels(levels: readonly MicLevels[]): MicLevels | undefined {
  const room_dBFS = median(levels.map((each) => each.room_dBFS))
  const speech_dBFS = median(levels.map((each) => each.speech_dBFS))
  return room_dBFS === undefined || speech_dBFS === undefined
    ? undefined
    : { room_dBFS, speech_dBFS }
}

/** How far a voice is above the room, as the middle of some checks; `undefined` of none. */
export const aboveRoom_dB = (levels: readonly MicLevels[]): number | undefined =>
  median(levels.map(({ room_dBFS, speech_dBFS }) => speech_dBFS - room_dBFS))

/** What is unlike the checks before: a softer voice, a louder room. Nothing while there are few of them. */
export function levelChanges(
  before: readonly MicLevels[],
  now: MicLevels | undefined,
): readonly LevelChange[] {
  const usual = usualLevels(before)
  if (!usual || !now || before.length < LEAST_CHECKS) return []
  const softer_dB = usual.speech_dBFS - now.speech_dBFS
  const louder_dB = now.room_dBFS - usual.room_dBFS
  return [
    ...(softer_dB >= LEAST_dB ? [{ kind: 'softer', by_dB: softer_dB } as const] : []),
    ...(louder_dB >= LEAST_dB ? [{ kind: 'louderRoom', by_dB: louder_dB } as const] : []),
  ]
}
