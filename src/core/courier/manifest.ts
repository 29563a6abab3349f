import type { Catalogue } from '../catalogue/catalogue.ts'
import type { CarriedAt } from '../catalogue/laboratories.ts'
import { defined } from '../basics/defined.ts'
import { isoLocal } from '../time/format.ts'
import type { Stamp } from '../time/stamp.ts'
import type { PackSpecimen } from './packSpecimen.ts'
import { carriedAt, deadlines, kindOf, passedAt } from './transport.ts'
import type { Laboratory } from '../catalogue/laboratories.ts'

const MANIFEST_FORMAT = 'stillhand-manifest'
const MANIFEST_VERSION = 1

/** One specimen of a manifest, as another machine reads it. Times are local with their offset. */
interface ManifestRow {
  readonly number: string
  readonly orderNumber: string
  readonly familyName: string
  readonly givenNames: string
  readonly birthDate: string
  readonly recordNumber: string
  readonly tube: string
  readonly kind: string
  readonly tests: readonly string[]
  readonly collected: string
  /** When the first of its tests is out of time. */
  readonly limit?: string
  /** Tests that were out of time when it was handed over. */
  readonly passed: readonly string[]
}

/** What goes with a pack, on paper and as a file. */
export interface Manifest {
  readonly format: typeof MANIFEST_FORMAT
  readonly version: typeof MANIFEST_VERSION
  /** Of an invented practice: no laboratory takes it. */
  readonly practice: boolean
  readonly pack: string
  readonly from: string
  readonly laboratory: string
  readonly carriedAt: readonly CarriedAt[]
  readonly dark: boolean
  readonly courier: string
  readonly sent: string
  readonly count: number
  readonly specimens: readonly ManifestRow[]
  /** Specimens that should have gone and were not there, and who said so. */
  readonly missing: readonly string[]
  readonly missingSaidBy: string
}

/** What is known of a pack besides its specimens. */
export interface PackSent {
  readonly pack: string
  readonly from: string
  readonly laboratory: string
  readonly courier: string
  readonly sent: Pick<Stamp, 'at_ms' | 'offset_min'>
  readonly missing: readonly string[]
  readonly missingSaidBy: string
}

/** The manifest of a pack, from the records of the tubes in it. */
export function manifestOf(
  { sent, ...about }: PackSent,
  specimens: readonly PackSpecimen[],
  laboratory: Laboratory | undefined,
  catalogue: Catalogue,
): Manifest {
  const rows = [...specimens].sort((a, b) => (a.number < b.number ? -1 : 1))
  return {
    format: MANIFEST_FORMAT,
    version: MANIFEST_VERSION,
    practice: rows.some(({ invented }) => invented),
    ...about,
    carriedAt: [...new Set(rows.map((each) => carriedAt(each, laboratory, catalogue)))],
    dark: rows.some(({ tube }) => tube.handling.includes('light')),
    sent: isoLocal(sent),
    count: rows.length,
    specimens: rows.map((each) => {
      const { number, order, patient, tube, collected } = each
      const limits = deadlines(each, catalogue)
      const [first] = limits
      const { offset_min } = collected
      return defined({
        number,
        orderNumber: order.orderNumber,
        familyName: patient.familyName ?? patient.fullName,
        givenNames: patient.givenNames ?? '',
        birthDate: patient.birthDate,
        recordNumber: patient.recordNumber,
        tube: tube.name,
        kind: kindOf(tube, catalogue),
        tests: tube.tests,
        collected: isoLocal(collected),
        limit: first && isoLocal({ at_ms: first.by_ms, offset_min }),
        passed: passedAt(limits, sent.at_ms),
      })
    }),
  }
}
