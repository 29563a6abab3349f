import { isCard } from '../plan/plan.ts'
import type { BenchActType } from '../protocol/benchEvents.ts'
import { isGel } from '../protocol/handled.ts'
import { isSpinning, leftAt } from '../protocol/specimenWay.ts'
import type { BenchSpecimen } from './benchSpecimens.ts'

export const BENCH_STEP_IDS = [
  'spinning',
  'dry',
  'clot',
  'spin',
  'separate',
  'store',
  'bag',
  'courier',
  'held',
  'gone',
] as const
export type BenchStepId = (typeof BENCH_STEP_IDS)[number]

interface BenchStep {
  readonly id: BenchStepId
  readonly when: (each: BenchSpecimen, isClotted: boolean) => boolean
  /** What confirms the step, and what else may be done at it. */
  readonly main?: BenchActType
  readonly also: readonly BenchActType[]
}

const isSpunYet = ({ way }: BenchSpecimen): boolean => way.spins.length > 0

const mustBeSpun = (each: BenchSpecimen): boolean => each.isToSpin && !isSpunYet(each)

/**
 * Without gel somebody takes serum or plasma off the cells. Citrated tubes are examined as they were spun, and whole
 * blood is not parted (common practice, no source).
 */
const mustBeParted = (each: BenchSpecimen): boolean =>
  each.isToSpin &&
  isSpunYet(each) &&
  !isGel(each.tube) &&
  each.tube.additive !== 'citrate' &&
  !each.way.separated &&
  !each.way.aliquots

/** Whose turn a specimen is, in the order of the bench; the first row that fits. */
// prettier-ignore
const BENCH_STEPS: readonly BenchStep[] = [
  { id: 'gone', when: ({ way }) => leftAt(way) !== undefined, also: [] },
  { id: 'spinning', when: ({ way }) => isSpinning(way), main: 'spinEnded', also: [] },
  { id: 'held', when: ({ isOfAnother }) => isOfAnother, also: [] },
  { id: 'dry', when: (each) => isCard(each.tube) && !each.dried, also: [] },
  { id: 'clot', when: (each, isClotted) => mustBeSpun(each) && !isClotted, also: ['spinStarted', 'stored'] },
  { id: 'spin', when: mustBeSpun, main: 'spinStarted', also: ['separated', 'stored', 'bagged'] },
  { id: 'separate', when: mustBeParted, main: 'separated', also: ['aliquoted', 'stored'] },
  { id: 'store', when: ({ way }) => !way.stored && !way.bagged, main: 'stored', also: ['aliquoted', 'bagged'] },
  { id: 'bag', when: ({ way }) => !way.bagged, main: 'bagged', also: ['stored', 'aliquoted'] },
  { id: 'courier', when: () => true, also: ['stored'] },
]

/** The row whose turn it is. */
export function benchStepOf(each: BenchSpecimen, isClotted: boolean): BenchStep {
  const step = BENCH_STEPS.find(({ when }) => when(each, isClotted))
  if (!step) throw new Error('The table of the bench has no last row.')
  return step
}
