import * as v from 'valibot'
import type { FieldsReading } from './orderFields.ts'

const Coding = v.object({ system: v.optional(v.string()), code: v.optional(v.string()) })
const Concept = v.object({
  coding: v.optional(v.array(Coding)),
  text: v.optional(v.string()),
})
const Identifier = v.object({ value: v.optional(v.string()), type: v.optional(Concept) })

const Patient = v.object({
  resourceType: v.literal('Patient'),
  identifier: v.optional(v.array(Identifier)),
  name: v.optional(
    v.array(
      v.object({
        text: v.optional(v.string()),
        given: v.optional(v.array(v.string())),
        family: v.optional(v.string()),
      }),
    ),
  ),
  gender: v.optional(v.string()),
  birthDate: v.optional(v.string()),
})

const ServiceRequest = v.object({
  resourceType: v.literal('ServiceRequest'),
  status: v.string(),
  intent: v.string(),
  requisition: v.optional(Identifier),
  identifier: v.optional(v.array(Identifier)),
  priority: v.optional(v.string()),
  code: v.optional(Concept),
  requester: v.optional(v.object({ display: v.optional(v.string()) })),
})
type ServiceRequest = v.InferOutput<typeof ServiceRequest>

const Bundle = v.object({
  resourceType: v.literal('Bundle'),
  entry: v.optional(
    v.array(v.object({ resource: v.optional(v.looseObject({ resourceType: v.string() })) })),
  ),
})

/** Reads an order from a FHIR R4 Bundle: one Patient, and a ServiceRequest for each test. */
export function bundleFields(text: string): FieldsReading {
  let json: unknown
  try {
    json = JSON.parse(text)
  } catch {
    return refuse('The file is not complete JSON.')
  }
  const bundle = v.safeParse(Bundle, json)
  if (!bundle.success) return refuse('The file is JSON but not a FHIR Bundle.')
  const resources = (bundle.output.entry ?? []).flatMap(({ resource }) => resource ?? [])
  const ofType = (type: string): typeof resources =>
    resources.filter(({ resourceType }) => resourceType === type)
  const patients = ofType('Patient')
  if (patients.length !== 1) {
    return refuse(`The bundle should hold one Patient and holds ${patients.length}.`)
  }
  const patient = v.safeParse(Patient, patients[0])
  if (!patient.success) return refuse(`The Patient cannot be read: ${where(patient.issues)}.`)
  const requests: ServiceRequest[] = []
  for (const resource of ofType('ServiceRequest')) {
    const request = v.safeParse(ServiceRequest, resource)
    if (!request.success) {
      return refuse(`A ServiceRequest cannot be read: ${where(request.issues)}.`)
    }
    requests.push(request.output)
  }
  const stale = requests.find(({ status }) => status !== 'active' && status !== 'draft')
  if (stale)
    return refuse(`A ServiceRequest has the status ${stale.status}: it is not to be drawn.`)
  const numbers = new Set(requests.map(orderNumber))
  if (numbers.size > 1) return refuse('The bundle holds more than one order.')
  const first = requests[0]
  if (!first) return refuse('The bundle holds no ServiceRequest.')
  const { name, birthDate, gender } = patient.output
  return {
    ok: true,
    fields: {
      fullName: fullName(name?.[0]),
      birthDate: birthDate ?? '',
      recordNumber: recordNumber(patient.output.identifier ?? []),
      sex: gender ?? '',
      orderNumber: orderNumber(first),
      provider: first.requester?.display ?? '',
      priority: first.priority ?? 'routine',
      tests: requests.map(testOf).filter((test) => test !== ''),
    },
  }
}

type Name = NonNullable<v.InferOutput<typeof Patient>['name']>[number]

function fullName(name: Name | undefined): string {
  const parts = [...(name?.given ?? []), name?.family ?? '']
  return (name?.text ?? parts.filter(Boolean).join(' ')).trim()
}

/** The identifier typed MR, or the only one there is. */
function recordNumber(identifiers: readonly v.InferOutput<typeof Identifier>[]): string {
  const typed = identifiers.find(({ type }) => type?.coding?.some(({ code }) => code === 'MR'))
  const only = identifiers.length === 1 ? identifiers[0] : undefined
  return (typed ?? only)?.value ?? ''
}

const orderNumber = (request: ServiceRequest): string =>
  request.requisition?.value ?? request.identifier?.[0]?.value ?? ''

const testOf = ({ code }: ServiceRequest): string =>
  code?.coding?.find((coding) => coding.code)?.code ?? code?.text ?? ''

const where = (issues: readonly v.BaseIssue<unknown>[]): string =>
  issues
    .slice(0, 3)
    .map((issue) => `${v.getDotPath(issue) ?? '?'}: ${issue.message}`)
    .join('; ')

const refuse = (error: string): FieldsReading => ({ ok: false, errors: [error] })
