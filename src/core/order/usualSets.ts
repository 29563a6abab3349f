import type { Gauge, NeedleKind, NeedleSet } from './order.ts'

/** Sets that can be named with one choice; any other is typed from its packet. */
export type UsualSet = 'straight21' | 'straight22' | 'winged21' | 'winged23' | 'winged25'

/**
 * What a set named by kind and gauge is taken to be: needle 25 mm (1 in) straight and 19 mm (3/4 in) winged, tubing
 * 305 mm (12 in) of 1.6 mm bore (common practice, no source). Its wall was not read from the packet and stays open.
 */
export function usualSet(kind: NeedleKind, gauge: Gauge): NeedleSet {
  return kind === 'winged'
    ? { kind, gauge, needle_mm: 19, tubing_mm: 305, tubingBore_mm: 1.6 }
    : { kind, gauge, needle_mm: 25, tubing_mm: 0, tubingBore_mm: 0 }
}

export const USUAL_SETS: Readonly<Record<UsualSet, NeedleSet>> = {
  straight21: usualSet('straight', 21),
  straight22: usualSet('straight', 22),
  winged21: usualSet('winged', 21),
  winged23: usualSet('winged', 23),
  winged25: usualSet('winged', 25),
}
