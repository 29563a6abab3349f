import type { TubeRow } from '../catalogue/catalogue.ts'
import type { UsableTube } from './usableStock.ts'

/** Up to this draw volume a vacuum tube is made for children, mL (common practice, no source). */
const CHILD_TUBE_mL = 1

/** Micro-collection tubes are usual for infants of less than a year (common practice, no source). */
const INFANT_BELOW_y = 1
const ADULT_FROM_y = 18

const isSmall = ({ kind, nominal_mL }: TubeRow): boolean =>
  kind === 'micro' || (kind === 'evacuated' && nominal_mL <= CHILD_TUBE_mL)

/** A tube that is filled drop by drop, or paper for drops. */
export const isForDrops = ({ kind }: TubeRow): boolean => kind === 'micro' || kind === 'card'

/** A vacuum draws blood out of a syringe, or it runs in; a gas syringe is drawn at the needle itself. */
export const isForSyringe = ({ kind }: TubeRow): boolean => kind !== 'card' && kind !== 'syringe'

/** Paper is for drops alone: no blood of a vein is planned for it. */
export const isForVein = ({ kind }: TubeRow): boolean => kind !== 'card'

/**
 * The tubes to plan with at an age: an adult gets no child's tube, and whoever is no infant gets micro-collection tubes
 * only where `small` asks for them. A tube that exists in no larger size is for everybody.
 */
export function tubesForAge(
  usable: readonly UsableTube[],
  age_y: number,
  small: boolean,
): readonly UsableTube[] {
  if (age_y < INFANT_BELOW_y || (small && age_y < ADULT_FROM_y)) return usable
  const left = age_y < ADULT_FROM_y ? ({ kind }: TubeRow) => kind !== 'micro' : not(isSmall)
  return usable.filter(
    ({ tube }) =>
      left(tube) ||
      !usable.some(({ tube: other }) => other.additive === tube.additive && left(other)),
  )
}

const not =
  (test: (tube: TubeRow) => boolean) =>
  (tube: TubeRow): boolean =>
    !test(tube)
