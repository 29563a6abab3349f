import type { FillWindow } from './fillWindow.ts'

/** Beyond the late end: the window is an estimate. */
const MARGIN = 1.5
/** To hear the chime, take the tube off and say so. */
const REACTION_s = 5

/**
 * From when on a tube that is not said to be full counts as filling slowly, s from first blood in it; `undefined`
 * where the window says nothing about the flow. Someone who takes the tube off at the chime must not put doubt on
 * potassium into the record. Margin and reaction: common practice, no source.
 */
export function slowAfter_s({ late_s, trusted }: FillWindow): number | undefined {
  return trusted === false ? undefined : late_s * MARGIN + REACTION_s
}
