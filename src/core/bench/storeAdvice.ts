import { isCard } from '../plan/plan.ts'
import type { BenchRules, StoreRow, StoreWhen } from './benchRules.ts'
import type { BenchSpecimen } from './benchSpecimens.ts'

const IS: Readonly<Record<StoreWhen, (each: BenchSpecimen) => boolean>> = {
  culture: ({ tube }) => tube.role === 'culture',
  card: ({ tube }) => isCard(tube),
  ice: ({ tube }) => tube.handling.includes('ice'),
  warm: ({ tube }) => tube.handling.includes('warm'),
  incubated: ({ tube }) => tube.additive.startsWith('igra'),
  parted: ({ tube, way }) =>
    way.separated !== undefined || (way.spins.length > 0 && tube.additive !== 'citrate'),
  citrate: ({ tube }) => tube.additive === 'citrate' || tube.additive === 'ctad',
  roomOnly: ({ tube }) => tube.handling.includes('roomOnly'),
  whole: () => true,
}

/** Where a specimen waits for the courier, and where never; each with its source. */
export function storeAdvice(each: BenchSpecimen, { stores }: BenchRules): StoreRow | undefined {
  return stores.find(({ when }) => IS[when](each))
}
