import type { DrawLog } from '../../core/protocol/entry.ts'
import { openingOf } from '../../core/record/openingOf.ts'
import { rulerStrip, type RulerStrip } from '../../core/record/rulerStrip.ts'

/** What the list of draws says of one beyond its name and day. */
export interface DrawDigest {
  readonly recordNumber: string
  /** Tubes that went away with blood in them, without the discard. */
  readonly tubes: number
  readonly strip: RulerStrip
}

/** @throws RangeError when the log does not begin with the opening of a draw. */
export function drawDigest(log: DrawLog): DrawDigest {
  const strip = rulerStrip(log)
  const filled = strip.tubes.filter(
    ({ fill, isDiscard }) => !isDiscard && (fill === 'full' || fill === 'short'),
  )
  return {
    recordNumber: openingOf(log).patient.recordNumber,
    tubes: new Set(filled.map(({ tubeId }) => tubeId)).size,
    strip,
  }
}
