import type { SittingPart } from '../order/sitting.ts'
import { punctualityOf, type Punctuality } from '../series/due.ts'
import type { DrawFacts, TubeFact } from './drawFacts.ts'

/** The time point that a tube stands for, and how it was drawn against it. */
export interface TubeTimePoint {
  readonly part: SittingPart
  /** Missing: nothing is due, or nobody told the moment it is counted from. */
  readonly punctuality?: Punctuality
}

/** The time points of the tests in a tube; a tube of the first draw may hold tests of several series. */
export function timePointsOf(
  facts: Pick<DrawFacts, 'opened' | 'moments'>,
  { tube, on, off }: Pick<TubeFact, 'tube' | 'on' | 'off'>,
): readonly TubeTimePoint[] {
  const parts = facts.opened.sitting?.parts ?? []
  return parts
    .filter((part) => part.tests.some((test) => tube.tests.includes(test)))
    .map((part) => {
      const punctuality = punctualityOf(part, facts.moments, (off ?? on).at_ms)
      return { part, ...(punctuality && { punctuality }) }
    })
}

/** Hours from the last dose to the sample; `undefined` where nobody knows when the dose was. */
export function sinceDose_h(
  at: string | undefined,
  drawn: { readonly at_ms: number; readonly offset_min: number },
): number | undefined {
  if (at === undefined) return undefined
  // Both are local times of one place.
  const dose_ms = Date.parse(`${at}:00Z`) - drawn.offset_min * 60_000
  return (drawn.at_ms - dose_ms) / 3_600_000
}
