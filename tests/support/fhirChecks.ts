import { codesOf } from './fhirDefinitions.ts'

type Json = Readonly<Record<string, unknown>>

/**
 * Codes that a field must have by a required binding of FHIR R4 (4.0.1), which the structure check does not look at.
 * Copied from the value sets of the R4 specification.
 */
const REQUIRED: Readonly<Record<string, readonly string[]>> = {
  'Bundle.type': [
    'document',
    'message',
    'transaction',
    'transaction-response',
    'batch',
    'batch-response',
    'history',
    'searchset',
    'collection',
  ],
  'Patient.gender': ['male', 'female', 'other', 'unknown'],
  'ServiceRequest.status': [
    'draft',
    'active',
    'on-hold',
    'revoked',
    'completed',
    'entered-in-error',
    'unknown',
  ],
  'ServiceRequest.intent': [
    'proposal',
    'plan',
    'directive',
    'order',
    'original-order',
    'reflex-order',
    'filler-order',
    'instance-order',
    'option',
  ],
  'ServiceRequest.priority': ['routine', 'urgent', 'asap', 'stat'],
  'Specimen.status': ['available', 'unavailable', 'unsatisfactory', 'entered-in-error'],
  'Procedure.status': [
    'preparation',
    'in-progress',
    'not-done',
    'on-hold',
    'stopped',
    'completed',
    'entered-in-error',
    'unknown',
  ],
  'Task.status': [
    'draft',
    'requested',
    'received',
    'accepted',
    'rejected',
    'ready',
    'cancelled',
    'in-progress',
    'on-hold',
    'failed',
    'completed',
    'entered-in-error',
  ],
  'Task.intent': [
    'unknown',
    'proposal',
    'plan',
    'order',
    'original-order',
    'reflex-order',
    'filler-order',
    'instance-order',
    'option',
  ],
  'Observation.status': [
    'registered',
    'preliminary',
    'final',
    'amended',
    'corrected',
    'cancelled',
    'entered-in-error',
    'unknown',
  ],
  'Consent.status': ['draft', 'proposed', 'active', 'rejected', 'inactive', 'entered-in-error'],
  'DocumentReference.status': ['current', 'superseded', 'entered-in-error'],
  'DocumentReference.docStatus': ['preliminary', 'final', 'amended', 'entered-in-error'],
  'AuditEvent.action': ['C', 'R', 'U', 'D', 'E'],
  'AuditEvent.outcome': ['0', '4', '8', '12'],
}

/** UCUM units that the app writes (mL, h and s are in UCUM's table of units). */
const UNITS = ['mL', 'h', 's']

const isObject = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

function walk(value: unknown, path: string, visit: (value: unknown, path: string) => void): void {
  visit(value, path)
  if (Array.isArray(value)) value.forEach((item, i) => walk(item, `${path}[${i}]`, visit))
  if (isObject(value)) {
    for (const [key, field] of Object.entries(value)) walk(field, `${path}.${key}`, visit)
  }
}

/** What the structure definitions miss: required codes, code membership, units, empty values, references, ids. */
export function fhirIssues(bundle: Json): string[] {
  const issues: string[] = []
  const entries = (bundle['entry'] ?? []) as readonly { fullUrl?: string; resource: Json }[]
  const urls = entries.map(({ fullUrl }) => fullUrl)
  const known = new Set(urls)
  if (known.size !== urls.length) issues.push('two entries have one fullUrl')
  for (const resource of [bundle, ...entries.map((entry) => entry.resource)]) {
    issues.push(...requiredCodes(resource))
  }
  for (const { fullUrl, resource } of entries) {
    if (!/^urn:uuid:[0-9a-f-]{36}$/.test(fullUrl ?? '')) issues.push(`${fullUrl} is no urn:uuid`)
    if (fullUrl !== `urn:uuid:${String(resource['id'])}`) issues.push(`${fullUrl} is not the id`)
  }
  walk(bundle, 'Bundle', (value, path) => {
    if (value === undefined || value === null || value === '') issues.push(`${path} is empty`)
    if (isObject(value) && Object.keys(value).length === 0) issues.push(`${path} is empty`)
    if (Array.isArray(value) && value.length === 0) issues.push(`${path} is empty`)
    if (!isObject(value)) return
    if (typeof value['reference'] === 'string' && !known.has(value['reference'])) {
      issues.push(`${path} refers to nothing`)
    }
    if (typeof value['system'] === 'string' && 'code' in value) issues.push(...coded(value, path))
  })
  return issues
}

function requiredCodes(resource: Json): string[] {
  const type = String(resource['resourceType'])
  return Object.entries(REQUIRED).flatMap(([path, allowed]) => {
    const [of, field = ''] = path.split('.')
    const value = resource[field]
    if (of !== type || value === undefined || allowed.includes(value as string)) return []
    return [`${path} is ${JSON.stringify(value)}`]
  })
}

function coded(value: Json, path: string): string[] {
  const system = String(value['system'])
  const code = String(value['code'])
  if (system === 'http://unitsofmeasure.org') {
    const sound =
      typeof value['value'] === 'number' && value['unit'] !== undefined && UNITS.includes(code)
    return sound ? [] : [`${path} is not a quantity in UCUM`]
  }
  // Codes of the site are its own, and LOINC is not part of the definitions.
  if (system.startsWith('urn:stillhand:') || system === 'http://loinc.org') return []
  const codes = codesOf(system)
  if (!codes) return [`${path} has the system ${system}, which R4 does not define`]
  return codes.has(code) ? [] : [`${path} has the code ${code}, which ${system} does not`]
}
