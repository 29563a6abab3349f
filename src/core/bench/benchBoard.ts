import { isGel } from '../protocol/handled.ts'
import { wayElapsed } from '../protocol/specimenWay.ts'
import type { Reading, Stamp } from '../time/stamp.ts'
import type { BenchRules, SpinNeed, StoreRow } from './benchRules.ts'
import type { BenchSpecimen } from './benchSpecimens.ts'
import { benchStepOf, type BenchStepId } from './benchSteps.ts'
import type { Rotor } from './rcf.ts'
import { storeAdvice } from './storeAdvice.ts'

const MINUTE_ms = 60_000

/** What a time limit is of. */
export type LatestOf = 'test' | 'separate' | 'clotMost'

export interface Latest {
  readonly at_ms: number
  readonly of: LatestOf
  /** Code of the test whose limit it is. */
  readonly test?: string
  readonly isOver: boolean
}

export interface BenchRow {
  readonly specimen: BenchSpecimen
  readonly step: BenchStepId
  /** From when the step can be done; Unix ms by the clock of this device. */
  readonly due_ms: number
  readonly isDue: boolean
  /** Every limit that still counts, the nearest first. */
  readonly limits: readonly Latest[]
  readonly spin?: SpinNeed
  readonly store?: StoreRow
  /** It stands longer to clot because of a blood thinner. */
  readonly clotsLonger: boolean
}

/**
 * Order of the rows: what must go no further on top, then what is over or due, then by the nearest limit, then by what
 * is due.
 */
export function benchBoard(
  specimens: readonly BenchSpecimen[],
  now: Reading,
  rules: BenchRules,
  rotor: Rotor,
): readonly BenchRow[] {
  const at: Stamp = { ...now, at_ms: now.wall_ms }
  const nearest = ({ limits }: BenchRow): number => limits[0]?.at_ms ?? Infinity
  return specimens
    .map((each) => rowOf(each, at, rules, rotor))
    .sort(
      (a, b) =>
        Number(b.step === 'held') - Number(a.step === 'held') ||
        Number(b.isDue) - Number(a.isDue) ||
        nearest(a) - nearest(b) ||
        a.due_ms - b.due_ms ||
        (a.specimen.number < b.specimen.number ? -1 : 1),
    )
}

function rowOf(specimen: BenchSpecimen, at: Stamp, rules: BenchRules, rotor: Rotor): BenchRow {
  const { tube, off, way } = specimen
  const clotsLonger = tube.clot_min !== undefined && isThinned(specimen)
  const clot_min = (tube.clot_min ?? 0) + (clotsLonger ? rules.clotLonger_min : 0)
  const clotted_ms = waitOver_ms(off, clot_min * MINUTE_ms, at)
  const step = benchStepOf(specimen, clotted_ms <= at.at_ms).id
  const spin = spinNeed(specimen, rules, rotor)
  const due_ms = dueAt_ms(specimen, step, at, clotted_ms, spin)
  const store = storeAdvice(specimen, rules)
  return {
    specimen,
    step,
    due_ms,
    // What is held back is never ticked with others.
    isDue: step !== 'gone' && step !== 'courier' && step !== 'held' && due_ms <= at.at_ms,
    limits: step === 'gone' || step === 'held' ? [] : limitsOf(specimen, at),
    ...(spin && way.spins.length === 0 && { spin }),
    ...(store && { store }),
    clotsLonger,
  }
}

/** Told to be on a blood thinner; where nobody asked, the tube's own time stands. */
const isThinned = ({ anticoagulant }: BenchSpecimen): boolean =>
  anticoagulant === 'heparin' || anticoagulant === 'other'

/** How it is spun; `undefined` for what is not, and for what nobody has a rule for. */
function spinNeed(
  { tube, isToSpin }: BenchSpecimen,
  { spins }: BenchRules,
  { angle }: Rotor,
): SpinNeed | undefined {
  const row = isToSpin
    ? spins.find(({ additives }) => additives.includes(tube.additive))
    : undefined
  if (!row) return undefined
  const { g, swing_min, fixed_min, source } = row
  // What came off on ice stays cold in the centrifuge (study manual: 4 C).
  const temperature = tube.handling.includes('ice') ? 'cold' : 'room'
  return { g, min: angle === 'swing' ? swing_min : fixed_min, temperature, source }
}

function dueAt_ms(
  { way, off, driedFrom, dry_h }: BenchSpecimen,
  step: BenchStepId,
  at: Stamp,
  clotted_ms: number,
  spin: SpinNeed | undefined,
): number {
  switch (step) {
    case 'clot':
    case 'spin':
      return clotted_ms
    case 'spinning': {
      const last = way.spins.at(-1)
      const min = last?.spin_min ?? spin?.min ?? 0
      return last ? waitOver_ms(last.started, min * MINUTE_ms, at) : at.at_ms
    }
    case 'dry':
      return driedFrom ? waitOver_ms(driedFrom, dry_h * 60 * MINUTE_ms, at) : Infinity
    case 'separate':
      return way.spins.at(-1)?.ended?.at_ms ?? at.at_ms
    case 'store':
      return (way.separated ?? way.spins.at(-1)?.ended ?? off).at_ms
    case 'bag':
    case 'courier':
    case 'held':
    case 'gone':
      return way.stored?.at.at_ms ?? off.at_ms
  }
}

/** Waits are held against the least time that can have passed, limits against the most. */
function waitOver_ms(from: Stamp, wait_ms: number, at: Stamp): number {
  return at.at_ms + wait_ms - wayElapsed(from, at).least_ms
}

function limitsOf(specimen: BenchSpecimen, at: Stamp): readonly Latest[] {
  const { tube, way, limits, collected, off, separate_min, clotMost_min } = specimen
  const latest = (from: Stamp, min: number, of: LatestOf, test?: string): Latest => {
    const left_ms = min * MINUTE_ms - wayElapsed(from, at).most_ms
    return {
      at_ms: at.at_ms + left_ms,
      of,
      ...(test !== undefined && { test }),
      isOver: left_ms < 0,
    }
  }
  const isSpunYet = way.spins.length > 0
  const isParted = way.separated !== undefined || way.aliquots !== undefined
  const spins = specimen.isToSpin
  // The spin ends the life of the tube as drawn; where it is not spun, it ends when the tube is where it is examined.
  const ofTests = spins && (isSpunYet || isParted) ? [] : limits
  const clots = tube.clot_min !== undefined && !isSpunYet && !isParted
  const toPart = spins && !isParted && !(isSpunYet && partsBySpin(specimen))
  return [
    ...ofTests.map(({ test, limit_min }) => latest(collected, limit_min, 'test', test)),
    ...(clots ? [latest(off, clotMost_min, 'clotMost')] : []),
    ...(toPart ? [latest(off, separate_min, 'separate')] : []),
  ].sort((a, b) => a.at_ms - b.at_ms)
}

/** Behind gel, or examined as it was spun. */
const partsBySpin = ({ tube }: BenchSpecimen): boolean => isGel(tube) || tube.additive === 'citrate'
