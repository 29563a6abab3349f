import type { Stamp } from '../time/stamp.ts'
import type { TubeFact } from './drawFacts.ts'

/** When the first test in a tube is out of time; `undefined` where none has a limit or the tube is not off yet. */
export function deadlineOf({
  tube,
  off,
  pulled,
}: TubeFact): Pick<Stamp, 'at_ms' | 'offset_min'> | undefined {
  if (tube.timeLimit_min === undefined || !off) return undefined
  const from = pulled ?? off
  return { at_ms: from.at_ms + tube.timeLimit_min * 60_000, offset_min: from.offset_min }
}
