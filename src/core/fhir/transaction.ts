import { faulty, ok, type Result } from '../basics/result.ts'
import { compact } from './compact.ts'
import { fateOf, hasValue, type AskedBy, type Request } from './fateOf.ts'
import type { AnyResource, Bundle, Reference } from './resources.ts'
import type { SiteSystems } from './siteSystems.ts'

type Sent<R> = R extends AnyResource ? Omit<R, 'id'> : never

/** A FHIR R4 Bundle of type transaction: all of it is done, or nothing. */
export interface Transaction {
  readonly resourceType: 'Bundle'
  readonly type: 'transaction'
  readonly timestamp: string
  readonly entry: readonly {
    readonly fullUrl: string
    readonly resource: Sent<AnyResource>
    readonly request: Request
  }[]
}

/** `open`: the draw is not closed. `patientSystem`: the site never said how its patients are found. */
export const TRANSACTION_FAULTS = ['open', 'patientSystem', 'patientNumber'] as const
export type TransactionFault = (typeof TRANSACTION_FAULTS)[number]

/**
 * The same resources as a transaction that may be sent any number of times: people and orders are found by the site's
 * own numbers; what is ours is found by our numbers and replaced, so that the same content makes no new version;
 * Provenance and AuditEvent, which have no number in R4, are found by the hash that they are tagged with.
 * @param bundle the collection, with the systems of the same site
 * @param asked empty where no request is known by its address: all are found by their numbers
 */
export function transactionOf(
  bundle: Bundle,
  site: SiteSystems,
  asked: AskedBy = new Map(),
): Result<Transaction, TransactionFault> {
  const faults = faultsOf(bundle, site)
  if (faults.length > 0) return faulty(faults)
  const all = bundle.entry.map((entry) => ({ ...entry, fate: fateOf(entry.resource, site, asked) }))
  const instead = new Map<string, Reference | undefined>(
    all.flatMap(({ fullUrl, fate }) => ('as' in fate ? [[fullUrl, fate.as] as const] : [])),
  )
  const entry = all.flatMap(({ fullUrl, resource: { id: _id, ...resource }, fate }) =>
    'send' in fate ? [{ fullUrl, resource: refer(resource, instead), request: fate.send }] : [],
  )
  const { timestamp } = bundle
  return ok(compact({ resourceType: 'Bundle', type: 'transaction', timestamp, entry }))
}

function faultsOf({ entry }: Bundle, site: SiteSystems): readonly TransactionFault[] {
  const isOpen = entry.some(
    ({ resource: r }) => r.resourceType === 'DocumentReference' && r.docStatus === 'preliminary',
  )
  const lacksNumber = entry.some(
    ({ resource: r }) => r.resourceType === 'Patient' && !hasValue(r.identifier?.[0]),
  )
  return [
    ...(isOpen ? (['open'] as const) : []),
    ...(site.patient ? [] : (['patientSystem'] as const)),
    ...(lacksNumber ? (['patientNumber'] as const) : []),
  ]
}

/** Puts other references in the place of those to what is not sent; what two requests share stands once. */
function refer<T>(value: T, instead: ReadonlyMap<string, Reference | undefined>): T {
  const walk = (part: unknown): unknown => {
    if (Array.isArray(part)) {
      const items = part.map(walk).filter((item) => item !== undefined)
      const texts = items.map((item) => JSON.stringify(item))
      return items.filter(
        (_item, i) => !isReference(part[i]) || texts.indexOf(texts[i] ?? '') === i,
      )
    }
    if (typeof part !== 'object' || part === null) return part
    if (isReference(part) && instead.has(part.reference)) return instead.get(part.reference)
    return Object.fromEntries(Object.entries(part).map(([key, field]) => [key, walk(field)]))
  }
  return walk(value) as T
}

const isReference = (part: unknown): part is { readonly reference: string } =>
  typeof part === 'object' &&
  part !== null &&
  'reference' in part &&
  typeof part.reference === 'string'
