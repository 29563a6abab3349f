import { isCard, type Fill, type PlannedTube } from '../plan/plan.ts'
import type { Identifier } from './events.ts'

/**
 * Questions that the draw asks of its state and the chart asks of its log, each on the small shape that both have, so
 * that the screen and the chart never answer differently.
 */

interface Filled {
  readonly fill?: Fill
}

/** There is blood in a tube whose maker asks for inversions. A discard is thrown away: nobody is asked to mix it. */
export function mustBeMixed(
  tube: Pick<PlannedTube, 'role' | 'inversions'> | undefined,
  { fill }: Filled,
): boolean {
  return (
    tube !== undefined && tube.role !== 'discard' && tube.inversions.min > 0 && fill !== 'empty'
  )
}

/** Too little blood in it. A card with a drop on each circle is none: how its circles are is told of each. */
export function isShortFill(
  tube: Pick<PlannedTube, 'additive'> | undefined,
  { fill, circles = [] }: Filled & { readonly circles?: readonly unknown[] },
  circles_n: number,
): boolean {
  return fill === 'short' && !(isCard(tube) && circles.length >= circles_n)
}

/** The tube came off with blood that goes to the laboratory, so it needs a label. */
export function isSpecimen(
  tube: Pick<PlannedTube, 'role'> | undefined,
  { off, fill }: Filled & { readonly off?: unknown },
): boolean {
  return off !== undefined && fill !== 'empty' && tube?.role !== 'discard'
}

/** Both identifiers that the patient must say matched when last asked. */
export function identityConfirmed(last: Readonly<Partial<Record<Identifier, boolean>>>): boolean {
  return last.fullName === true && last.birthDate === true
}

/** Needles that went in, each counted to the person who put it in; of one person where `by` names one. */
export function attempts(
  punctures: readonly { readonly by: string; readonly needleIn?: unknown }[],
  by?: string,
): number {
  return punctures.filter((p) => p.needleIn !== undefined && (by === undefined || p.by === by))
    .length
}
