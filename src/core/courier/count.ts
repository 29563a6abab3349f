import { isSpecimenNumber } from '../protocol/specimenNumber.ts'
import type { PackGroup } from './packList.ts'
import { isHere, specimenKey, type PackSpecimen } from './packSpecimen.ts'

/** Tubes that were found in the hand, by `specimenKey`. */
export type Counted = ReadonlySet<string>

export const NOTHING_COUNTED: Counted = new Set()

/** What a scan was of. `again`: counted before; `gone`: it has left; `foreign`: no specimen of these days. */
type ScanOf = 'counted' | 'again' | 'gone' | 'foreign'

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
