import * as v from 'valibot'
import type { Findings } from '../findings.ts'
import type { OrderFields } from '../orderFields.ts'
import { PRIORITIES } from './useTables.ts'
import { patientFields } from './patientFields.ts'
import { requestTest } from './requestTest.ts'
import {
  BUNDLE,
  PATIENT,
  SERVICE_REQUEST,
  where,
  type BundleEntry,
  type ServiceRequest,
} from './resources.ts'
import type { BundlePatient } from './subject.ts'

/** A sender's reply to a search or a list of past versions is no order: R4, value set bundle-type. */
const NO_ORDERS: readonly (string | undefined)[] = [
  'history',
  'transaction-response',
  'batch-response',
]
const MOST_REQUESTS = 300

/**
 * Reads an order from a FHIR R4 Bundle: one Patient, and a ServiceRequest for each test. What says "not this", "not
 * yet" or "not this patient" is refused or asked, item by item; see the tables for the value sets.
 * @param today `YYYY-MM-DD`
 */
export function bundleFields(
  json: unknown,
  today: string,
  findings: Findings,
): OrderFields | undefined {
  const bundle = v.safeParse(BUNDLE, json)
  if (!bundle.success) {
    findings.refuse('notABundle')
    return undefined
  }
  const { type, implicitRules, entry = [] } = bundle.output
  if (NO_ORDERS.includes(type)) findings.refuse('bundleType', { type: String(type) })
  if (implicitRules !== undefined) findings.refuse('implicitRules', { item: 'Bundle' })
  const patient = readPatient(ofType(entry, 'Patient', findings), findings)
  const requests = readRequests(ofType(entry, 'ServiceRequest', findings), findings)
  if (!patient || !requests) return undefined
  const named = requests.map((request, index) => ({ request, item: `Request ${index + 1}` }))
  const tests = named.flatMap(
    ({ request, item }) => requestTest(request, item, patient, today, findings) ?? [],
  )
  const first = requests[0]
  return {
    ...patientFields(patient.resource, today, findings),
    orderNumber: first ? orderNumber(first) : '',
    provider: requests.find(({ requester }) => requester?.display)?.requester?.display ?? '',
    priority: highest(requests),
    tests,
  }
}

/** Entries with a resource of that type; what would delete it or change its meaning is refused. */
function ofType(entries: readonly BundleEntry[], type: string, findings: Findings): BundleEntry[] {
  const found = entries.filter(({ resource }) => resource?.resourceType === type)
  found.forEach(({ modifierExtension, request }, index) => {
    const item = `${type} ${index + 1}`
    if (modifierExtension !== undefined) findings.refuse('modifier', { item })
    if (request?.method?.toUpperCase() === 'DELETE') findings.refuse('entryDeleted', { item })
  })
  return found
}

function readPatient(found: readonly BundleEntry[], findings: Findings): BundlePatient | undefined {
  const [entry] = found
  if (!entry || found.length > 1) {
    findings.refuse('notOnePatient', { found: found.length })
    return undefined
  }
  const patient = v.safeParse(PATIENT, entry.resource)
  if (patient.success) return { resource: patient.output, fullUrl: entry.fullUrl }
  findings.refuse('patientUnreadable', { where: where(patient.issues) })
  return undefined
}

function readRequests(
  found: readonly BundleEntry[],
  findings: Findings,
): readonly ServiceRequest[] | undefined {
  if (found.length === 0) findings.refuse('noRequest')
  if (found.length > MOST_REQUESTS) findings.refuse('tooManyTests', { most: MOST_REQUESTS })
  if (found.length === 0 || found.length > MOST_REQUESTS) return undefined
  const requests = found.flatMap(({ resource }, index) => {
    const request = v.safeParse(SERVICE_REQUEST, resource)
    if (request.success) return [request.output]
    const item = `Request ${index + 1}`
    findings.refuse('requestUnreadable', { item, where: where(request.issues) })
    return []
  })
  if (requests.length < found.length) return undefined
  if (new Set(requests.map(orderNumber)).size > 1) findings.refuse('twoOrders')
  return requests
}

/** The highest of all: R4 orders them routine, urgent, asap, stat. One that is not known is left to be refused. */
function highest(requests: readonly ServiceRequest[]): string {
  const asked = requests.map(({ priority }) => priority ?? 'routine')
  const unknown = asked.find((priority) => !PRIORITIES.some((known) => known === priority))
  return unknown ?? PRIORITIES.findLast((priority) => asked.includes(priority)) ?? 'routine'
}

function orderNumber({ requisition, identifier = [] }: ServiceRequest): string {
  const current = identifier.find(({ use }) => use !== 'old')
  return requisition?.value ?? current?.value ?? ''
}
