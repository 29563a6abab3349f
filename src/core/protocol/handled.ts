import type { Handling } from '../catalogue/handling.ts'
import type { PlannedTube } from '../plan/plan.ts'
import { planned, specimens } from './facts.ts'
import type { DrawState, TubeProgress } from './state.ts'

/** What somebody does to a tube as it comes off, in the order of hurry; the other marks only forbid something. */
export const HANDLED = ['ice', 'warm', 'light', 'dryFlat'] as const satisfies readonly Handling[]
export type Handled = (typeof HANDLED)[number]

/** What is still to be done to a tube. */
export function toHandle(s: DrawState, tube: TubeProgress): readonly Handled[] {
  const asked = planned(s, tube.id)?.handling ?? []
  return HANDLED.filter((how) => asked.includes(how) && tube.handled?.[how] === undefined)
}

/** Tubes off the holder that are not yet on ice, warm or dark as they should be, oldest first. */
export const unhandled = (s: DrawState): readonly TubeProgress[] =>
  s.courier
    ? []
    : specimens(s)
        .filter((tube) => toHandle(s, tube).length > 0)
        .sort((a, b) => (a.off?.at_ms ?? 0) - (b.off?.at_ms ?? 0))

/** The tube a person means who says that one is on ice, warm or wrapped. */
export const nextToHandle = (s: DrawState, how: Handled): TubeProgress | undefined =>
  unhandled(s).find((tube) => toHandle(s, tube).includes(how))

/**
 * Additives whose blood is spun for its plasma. Blood in plain EDTA is mostly examined whole (common practice, no
 * source); ammonia, which is not, has its own time limit.
 */
const SPUN_FOR_PLASMA: readonly PlannedTube['additive'][] = [
  'citrate',
  'heparinLithium',
  'heparinLithiumGel',
  'edtaK2Gel',
  'fluorideOxalate',
  'fluorideCitrate',
]

const GEL: readonly PlannedTube['additive'][] = ['activatorGel', 'heparinLithiumGel', 'edtaK2Gel']

/** A gel parts the cells from the rest as it is spun. */
export const isGel = ({ additive }: Pick<PlannedTube, 'additive'>): boolean =>
  GEL.includes(additive)

/** The tube must be spun: serum once it has clotted, plasma at once. */
export const isSpun = (
  tube: Pick<PlannedTube, 'role' | 'additive' | 'clot_min'> | undefined,
): boolean =>
  tube?.role === 'specimen' &&
  (tube.clot_min !== undefined || SPUN_FOR_PLASMA.includes(tube.additive))
