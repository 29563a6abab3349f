import { isSpecimenNumber } from '../protocol/specimenNumber.ts'
import type { PackGroup } from './packList.ts'
import { isHeldBack, isHere, specimenKey, type PackSpecimen } from './packSpecimen.ts'

/** Tubes that were found in the hand, by `specimenKey`. */
export type Counted = ReadonlySet<string>

export const NOTHING_COUNTED: Counted = new Set()

/**
 * What a scan was of. `again`: counted before; `gone`: it has left; `held`: it must not go; `foreign`: no specimen of
 * these days.
 */
type ScanOf = 'counted' | 'again' | 'gone' | 'held' | 'foreign'

export interface CountScan {
  readonly of: ScanOf
  readonly counted: Counted
  readonly specimen?: PackSpecimen
}

/** One label read: it counts once, however often it is scanned, and only where it is a tube that is still here. */
export function scanned(
  counted: Counted,
  specimens: readonly PackSpecimen[],
  text: string,
): CountScan {
  const specimen = specimens.find(({ number }) => isSpecimenNumber(text, number))
  if (!specimen) return { of: 'foreign', counted }
  const key = specimenKey(specimen)
  if (isHeldBack(specimen)) return { of: 'held', counted, specimen }
  if (!isHere(specimen)) return { of: 'gone', counted, specimen }
  if (counted.has(key)) return { of: 'again', counted, specimen }
  return { of: 'counted', counted: new Set([...counted, key]), specimen }
}

/** The same by hand: a tube is here, or was counted in error. */
export function toggled(counted: Counted, specimen: PackSpecimen): Counted {
  const next = new Set(counted)
  const key = specimenKey(specimen)
  if (!next.delete(key)) next.add(key)
  return next
}

/** What of a pack is in the hand, and what is missing: a pack is complete when nothing is. */
export function counting(
  { specimens }: Pick<PackGroup, 'specimens'>,
  counted: Counted,
): { readonly found: readonly PackSpecimen[]; readonly missing: readonly PackSpecimen[] } {
  return {
    found: specimens.filter((each) => counted.has(specimenKey(each))),
    missing: specimens.filter((each) => !counted.has(specimenKey(each))),
  }
}

/** The pack whose turn it is to be counted: the first that lacks something, practice only where there is no other. */
export function packToCount(groups: readonly PackGroup[], counted: Counted): PackGroup | undefined {
  const open = groups.filter((group) => counting(group, counted).missing.length > 0)
  return open.find(({ invented }) => !invented) ?? open[0]
}

/** All of them are in the hand. */
export const withAll = (counted: Counted, { specimens }: Pick<PackGroup, 'specimens'>): Counted =>
  new Set([...counted, ...specimens.map(specimenKey)])
