import * as v from 'valibot'

/** The parts of HL7 FHIR R4 resources that an order is read from; what is not named here is not looked at. */

const text = v.optional(v.string())
const Coding = v.object({ system: text, code: text })
const Concept = v.object({ coding: v.optional(v.array(Coding)), text })
const Period = v.optional(v.object({ start: text, end: text }))

export const IDENTIFIER = v.object({
  use: text,
  type: v.optional(Concept),
  system: text,
  value: text,
  period: Period,
})
export type Identifier = v.InferOutput<typeof IDENTIFIER>

export const HUMAN_NAME = v.object({
  use: text,
  text,
  given: v.optional(v.array(v.string())),
  family: text,
  period: Period,
})
export type HumanName = v.InferOutput<typeof HUMAN_NAME>

const Reference = v.object({
  reference: text,
  type: text,
  identifier: v.optional(IDENTIFIER),
  display: text,
})
export type Reference = v.InferOutput<typeof Reference>

/** R4 calls these modifier elements: whoever does not understand them must not use what they stand in. */
const modifiers = {
  implicitRules: v.optional(v.unknown()),
  modifierExtension: v.optional(v.unknown()),
}

export const PATIENT = v.object({
  ...modifiers,
  resourceType: v.literal('Patient'),
  id: text,
  active: v.optional(v.boolean()),
  deceasedBoolean: v.optional(v.boolean()),
  deceasedDateTime: text,
  link: v.optional(v.array(v.object({ type: text }))),
  identifier: v.optional(v.array(IDENTIFIER)),
  name: v.optional(v.array(HUMAN_NAME)),
  gender: text,
  birthDate: text,
  _birthDate: v.optional(
    v.object({ extension: v.optional(v.array(v.object({ url: text, valueDateTime: text }))) }),
  ),
})
export type Patient = v.InferOutput<typeof PATIENT>

export const SERVICE_REQUEST = v.object({
  ...modifiers,
  resourceType: v.literal('ServiceRequest'),
  status: v.string(),
  intent: v.string(),
  doNotPerform: v.optional(v.boolean()),
  subject: v.optional(Reference),
  requisition: v.optional(IDENTIFIER),
  identifier: v.optional(v.array(IDENTIFIER)),
  priority: text,
  code: v.optional(Concept),
  requester: v.optional(v.object({ display: text })),
  asNeededBoolean: v.optional(v.boolean()),
  asNeededCodeableConcept: v.optional(v.unknown()),
  occurrenceDateTime: text,
  occurrencePeriod: Period,
  occurrenceTiming: v.optional(v.unknown()),
  specimen: v.optional(v.array(v.unknown())),
  bodySite: v.optional(v.array(Concept)),
  note: v.optional(v.array(v.object({ text }))),
})
export type ServiceRequest = v.InferOutput<typeof SERVICE_REQUEST>

export const BUNDLE = v.object({
  resourceType: v.literal('Bundle'),
  type: text,
  implicitRules: v.optional(v.unknown()),
  entry: v.optional(
    v.array(
      v.object({
        fullUrl: text,
        modifierExtension: v.optional(v.unknown()),
        request: v.optional(v.object({ method: text })),
        resource: v.optional(v.looseObject({ resourceType: v.string() })),
      }),
    ),
  ),
})
export type BundleEntry = NonNullable<v.InferOutput<typeof BUNDLE>['entry']>[number]

/** The first three places where a resource has another shape, for a sentence. */
export const where = (issues: readonly v.BaseIssue<unknown>[]): string =>
  issues
    .slice(0, 3)
    .map((issue) => `${v.getDotPath(issue) ?? '?'}: ${issue.message}`)
    .join('; ')
