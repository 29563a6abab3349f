import type { Catalogue } from '../catalogue/catalogue.ts'
import type { CarriedAt } from '../catalogue/laboratories.ts'
import { defined } from '../basics/defined.ts'
import { isoLocal } from '../time/format.ts'
import type { Stamp } from '../time/stamp.ts'
import type { PackSpecimen } from './packSpecimen.ts'
import { carriedAt, deadlines, kindOf, passedAt } from './transport.ts'
import type { Laboratory } from '../catalogue/laboratories.ts'
import { PRIORITIES, type Priority, type Sex } from '../order/order.ts'
import { orderNumbersOf } from '../order/orderParts.ts'
import type { StorePlace } from '../protocol/benchEvents.ts'
import { isSpun } from '../protocol/handled.ts'

const MANIFEST_FORMAT = 'stillhand-manifest'
const MANIFEST_VERSION = 1

/** One run in the centrifuge, as far as somebody said. */
interface ManifestSpin {
  readonly started: string
  readonly ended?: string
  readonly g?: number
  readonly spin_min?: number
}

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
  /** Initials, or the number by which the device knows who drew: no laboratory takes a tube of nobody. */
  readonly collectedBy: string
  readonly priority: Priority
  readonly orderedBy?: string
  readonly sex?: Sex
  /** Each run in the centrifuge, with what it was set to. */
  readonly spun: readonly ManifestSpin[]
  /** When serum or plasma came off the cells. */
  readonly separated?: string
  /** It travels in so many portions and not as it was drawn. */
  readonly portions?: number
  readonly stored?: { readonly where: StorePlace; readonly at: string }
  /** Not spun yet: by when serum or plasma must be off the cells. */
  readonly separateBy?: string
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
  /** Specimens that went with it and of which this device has no record any more, by their numbers. */
  readonly unknown: readonly string[]
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
  readonly unknown: readonly string[]
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
      const { number, order, patient, tube, collected, collector, way } = each
      const { provider, priority } = shareOf(order, tube.tests)
      const limits = deadlines(each, catalogue)
      const [first] = limits
      const { offset_min } = collected
      return defined({
        number,
        orderNumber: orderNumbersOf(order, tube.tests),
        familyName: patient.familyName ?? patient.fullName,
        givenNames: patient.givenNames ?? '',
        birthDate: patient.birthDate,
        recordNumber: patient.recordNumber,
        tube: tube.name,
        kind: kindOf(tube, catalogue),
        tests: tube.tests,
        collected: isoLocal(collected),
        collectedBy: collector.initials || collector.id,
        priority,
        orderedBy: provider || undefined,
        sex: patient.sex,
        spun: way.spins.map(({ started, ended, g, spin_min }): ManifestSpin =>
          defined({
            started: isoLocal(started),
            ended: ended && isoLocal(ended),
            ...{ g, spin_min },
          }),
        ),
        separated: way.separated && isoLocal(way.separated),
        portions: way.aliquots?.portions,
        stored: way.stored && { where: way.stored.where, at: isoLocal(way.stored.at) },
        separateBy: separateBy(each),
        limit: first && isoLocal({ at_ms: first.by_ms, offset_min }),
        passed: passedAt(limits, sent.at_ms),
      })
    }),
  }
}

/** Of the orders that share a draw those that asked for the tube: the highest priority, and everyone who ordered. */
function shareOf(
  order: PackSpecimen['order'],
  tests: readonly string[],
): { readonly priority: Priority; readonly provider: string } {
  const parts = (order.parts ?? []).filter((part) =>
    part.tests.some((test) => tests.includes(test)),
  )
  const from = parts.length > 0 ? parts : [order]
  const highest = Math.max(...from.map(({ priority }) => PRIORITIES.indexOf(priority)))
  return {
    priority: PRIORITIES[highest] ?? 'routine',
    provider: [...new Set(from.flatMap(({ provider }) => provider ?? []))].join(' + '),
  }
}

/** Serum and plasma that travel unspun have a time by which the laboratory must part them. */
function separateBy({ tube, way, off, separate_min }: PackSpecimen): string | undefined {
  const isParted = way.spins.length > 0 || way.separated !== undefined || way.aliquots !== undefined
  if (!isSpun(tube) || isParted) return undefined
  const { at_ms, offset_min } = off
  return isoLocal({ at_ms: at_ms + separate_min * 60_000, offset_min })
}
