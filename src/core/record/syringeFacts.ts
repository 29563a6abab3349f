import type { Stamp } from '../time/stamp.ts'
import type { DrawFacts, PunctureFact, TubeFact } from './drawFacts.ts'

/** The puncture by syringe that a tube was filled from; `undefined` for one that was on a holder. */
export function syringeOf(
  { punctures }: Pick<DrawFacts, 'punctures'>,
  { puncture }: TubeFact,
): PunctureFact | undefined {
  return punctures.find(
    ({ number, needleSet }) => number === puncture && needleSet?.syringe_mL !== undefined,
  )
}

/** From when to when a tube's blood left the vein: into the tube, or into the syringe before. */
export function collectedIn(
  facts: Pick<DrawFacts, 'punctures'>,
  tube: TubeFact,
): { readonly from: Stamp; readonly to: Stamp | undefined } {
  const from = syringeOf(facts, tube)?.needleIn.at(-1)
  return tube.pulled && from ? { from, to: tube.pulled } : { from: tube.on, to: tube.off }
}
