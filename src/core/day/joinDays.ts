import type { DayEntry } from './dayEvents.ts'

/**
 * What several devices recorded, in the order in which it counts: by the charted time, each device's own order kept.
 * What lists an order comes before everything that is said of it, since the clock of one device may be wrong and
 * nothing that was said may be lost for it; that an act was said in error comes behind every act.
 * @param own of this device, in its order
 */
export function joinDays(
  own: readonly DayEntry[],
  others: readonly DayEntry[],
): readonly DayEntry[] {
  if (others.length === 0) return own
  return [...own, ...others].toSorted((a, b) => rank(a) - rank(b) || a.at.at_ms - b.at.at_ms)
}

/** What is taken back stays so: nothing follows that an act could be taken back for, and each has an id of its own. */
const RANKS: Readonly<Partial<Record<DayEntry['event']['type'], number>>> = {
  orderListed: 0,
  actTakenBack: 2,
}
const rank = ({ event }: DayEntry): number => RANKS[event.type] ?? 1
