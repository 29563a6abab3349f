import { findTest, type Catalogue, type SpecimenKind } from '../catalogue/catalogue.ts'
import type { CarriedAt, Laboratory } from '../catalogue/laboratories.ts'
import type { PackSpecimen } from './packSpecimen.ts'

const MINUTE_ms = 60_000

/**
 * How a specimen travels: frozen where it is kept frozen, then as its tests ask for it, then as its laboratory wants
 * its kind. The marks are the catalogue's, whose sources stand with its tests.
 */
export function carriedAt(
  { tube, way }: Pick<PackSpecimen, 'tube' | 'way'>,
  laboratory: Laboratory | undefined,
  catalogue: Catalogue,
): CarriedAt {
  const where = way.stored?.where
  if (where === 'freezer' || where === 'deepFreezer') return 'frozen'
  const { handling } = tube
  if (handling.includes('ice')) return 'cold'
  if (handling.includes('warm')) return 'warm'
  if (handling.includes('roomOnly')) return 'room'
  const carried = laboratory?.carriedAt[kindOf(tube, catalogue)] ?? 'room'
  // Nobody freezes a tube that was not parted from its cells: what is frozen at the laboratory's wish waits cold.
  const isParted = way.separated !== undefined || way.aliquots !== undefined
  return carried === 'frozen' && !isParted ? 'cold' : carried
}

/** What its first test that can be run on such a tube examines. */
export function kindOf(
  { tests, additive, role }: PackSpecimen['tube'],
  catalogue: Catalogue,
): SpecimenKind {
  if (role === 'culture') return 'culture'
  const needs = tests.flatMap((test) => findTest(catalogue, test)?.accepts ?? [])
  return needs.find((need) => need.additive === additive)?.kind ?? 'blood'
}

/** A test of a specimen with the moment at which it is out of time. */
export interface TestDeadline {
  readonly test: string
  /** Unix ms. */
  readonly by_ms: number
}

/**
 * Until when each of its tests can be run as drawn, the nearest first. None once it was spun or parted: those limits
 * are of the tube as drawn.
 */
export function deadlines(
  { tube, way, collected }: Pick<PackSpecimen, 'tube' | 'way' | 'collected'>,
  catalogue: Catalogue,
): readonly TestDeadline[] {
  if (way.spins.length > 0 || way.separated || way.aliquots) return []
  return tube.tests
    .flatMap((test): readonly TestDeadline[] => {
      // What the plan says of its nearest limit also knows of heparin.
      const planned = tube.timeLimitOf === test ? tube.timeLimit_min : undefined
      const limit_min = planned ?? findTest(catalogue, test)?.timeLimit_min
      return limit_min === undefined
        ? []
        : [{ test, by_ms: collected.at_ms + limit_min * MINUTE_ms }]
    })
    .sort((a, b) => a.by_ms - b.by_ms)
}

/** Tests that are out of time at a moment. */
export const passedAt = (limits: readonly TestDeadline[], at_ms: number): readonly string[] =>
  limits.filter(({ by_ms }) => by_ms < at_ms).map(({ test }) => test)
