import { defined } from '../basics/defined.ts'
import type {
  AnyResource,
  Identifier,
  Patient,
  Practitioner,
  Reference,
  ServiceRequest,
} from './resources.ts'
import { searchToken } from './searchToken.ts'
import { systemAt, type SiteSystem, type SiteSystems } from './siteSystems.ts'

/** How an entry of a transaction is done: created where nothing is found, or put in the place of what is found. */
export type Request =
  | { readonly method: 'POST'; readonly url: string; readonly ifNoneExist: string }
  | { readonly method: 'PUT'; readonly url: string }

/** What becomes of a resource: it is sent, or others refer to it as `as`; not at all where nothing is known of it. */
export type Fate = { readonly send: Request } | { readonly as: Reference | undefined }

/** The requests at the record server that a record answers, as `ServiceRequest/3`, by the test that each asks for. */
export type AskedBy = ReadonlyMap<string, string>

/** @param resource with the systems of the same site */
export function fateOf(resource: AnyResource, site: SiteSystems, asked: AskedBy): Fate {
  switch (resource.resourceType) {
    case 'Patient':
      return patient(resource, site.patient)
    case 'Practitioner':
      return practitioner(resource, site)
    case 'ServiceRequest':
      return serviceRequest(resource, site, asked)
    case 'Provenance':
    case 'AuditEvent':
      return create(resource.resourceType, `_tag=${tagOf(resource, systemAt('log', site.base))}`)
    default:
      return put(resource.resourceType, resource.identifier[0])
  }
}

const create = (type: string, ifNoneExist: string): Fate => ({
  send: { method: 'POST', url: type, ifNoneExist },
})

const put = (type: string, number: Identifier | undefined): Fate => ({
  send: { method: 'PUT', url: `${type}?identifier=${tokenOf(number)}` },
})

/** A number without a value would find whatever has one of that system. */
export const hasValue = (number: Identifier | undefined): number is Identifier => !!number?.value

const tokenOf = (number: Identifier | undefined): string =>
  searchToken(number?.system ?? '', number?.value ?? '')

function tagOf({ meta }: AnyResource, log: string): string {
  const tag = meta?.tag.find(({ system }) => system === log)
  return searchToken(log, tag?.code ?? '')
}

/** Created where it is missing if the site allows that; otherwise only found. */
function found(type: string, search: string, { create: may }: SiteSystem, display?: string): Fate {
  return may ? create(type, search) : { as: defined({ reference: `${type}?${search}`, display }) }
}

/** A patient who cannot be found is a fault of the whole (`transactionOf`). */
function patient({ identifier, name }: Patient, site: SiteSystem | undefined): Fate {
  const number = identifier?.[0]
  if (!site || !hasValue(number)) return { as: undefined }
  return found('Patient', `identifier=${tokenOf(number)}`, site, name?.[0]?.text)
}

/** Where the site has no numbers of its people, or one gave none, they are named. */
function practitioner({ identifier, name }: Practitioner, { practitioner: by }: SiteSystems): Fate {
  const display = name?.[0]?.text
  const own = identifier.find(({ system }) => system === by?.system)
  if (!by || !hasValue(own)) return { as: defined({ identifier: identifier[0], display }) }
  return found('Practitioner', `identifier=${tokenOf(own)}`, by, display)
}

/**
 * A request that the order was fetched from is named by its address: its number may stand on several. An order that
 * the site did not open to us is named by its number; writing one of our own would be to order.
 */
function serviceRequest(
  request: ServiceRequest,
  { order, base }: SiteSystems,
  asked: AskedBy,
): Fate {
  const { code } = request
  const requisition = hasValue(request.requisition) ? request.requisition : undefined
  const display = code?.text
  const ours = code?.coding?.find(({ system }) => system === systemAt('test', base))
  const reference = ours && asked.get(ours.code)
  if (reference !== undefined) return { as: defined({ reference, display }) }
  if (order?.foundBy === 'identifier' && requisition) {
    return { as: { reference: `ServiceRequest?identifier=${tokenOf(requisition)}` } }
  }
  if (order && requisition) {
    const codes = (code?.coding ?? []).map((coding) => searchToken(coding.system, coding.code))
    const which = codes.length > 0 ? `&code=${codes.join(',')}` : ''
    return found('ServiceRequest', `requisition=${tokenOf(requisition)}${which}`, order, display)
  }
  if (order?.create) return put('ServiceRequest', request.identifier[0])
  return { as: requisition && defined({ identifier: requisition, display }) }
}
