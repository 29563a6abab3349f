import type { NarrativeLabel } from '../record/recordTexts.ts'
import type {
  AnyResource,
  CodeableConcept,
  Identifier,
  Observation,
  Period,
  Procedure,
  Quantity,
  Reference,
  ServiceRequest,
  Specimen,
} from './resources.ts'

type Row = readonly [NarrativeLabel, string]

/** What a resource says to a reader, label by label; what it does not say has no row. */
export function narrativeRows(resource: AnyResource): readonly Row[] {
  return cells(resource).flatMap(([label, ...values]) => {
    const said = [...new Set(values.flat().filter((value) => !!value?.trim()))]
    return said.length > 0 ? [[label, said.join('; ')] as const] : []
  })
}

type Value = string | undefined
type Cell = readonly [NarrativeLabel, ...(Value | readonly Value[])[]]

function cells(r: AnyResource): readonly Cell[] {
  switch (r.resourceType) {
    case 'Patient':
      return [
        ['name', r.name?.map(({ text }) => text) ?? []],
        ['number', numbers(r.identifier)],
        ['birthDate', r.birthDate],
        ['gender', r.gender],
      ]
    case 'Practitioner':
      return [
        ['name', r.name?.map(({ text }) => text) ?? []],
        ['number', numbers(r.identifier)],
      ]
    case 'ServiceRequest':
      return serviceRequest(r)
    case 'Specimen':
      return specimen(r)
    case 'Procedure':
      return procedure(r)
    case 'Observation':
      return observation(r)
    case 'Task':
      return [
        ['status', r.status],
        ['test', concept(r.code)],
        ['reason', concept(r.statusReason)],
        ['patient', who(r.for)],
        ['at', r.authoredOn],
      ]
    case 'Consent':
      return [
        ['status', r.status],
        ['type', r.category.map(concept)],
        ['patient', who(r.patient)],
        ['by', r.performer?.map(who) ?? []],
        ['at', r.dateTime],
      ]
    case 'DocumentReference':
      return [
        ['type', concept(r.type)],
        ['status', r.status, r.docStatus],
        ['number', numbers(r.identifier)],
        ['patient', who(r.subject)],
        ['by', r.author.map(who)],
        ['at', r.date],
      ]
    case 'Provenance':
      return [
        [
          'source',
          r.entity.map(({ what: { display, identifier } }) => `${display}: ${identifier.value}`),
        ],
        ['by', r.agent.map((agent) => who(agent.who))],
        ['recorded', r.recorded],
      ]
    case 'AuditEvent':
      return [
        ['what', r.type.display],
        [
          'note',
          r.entity.flatMap(({ detail = [] }) => detail.map((d) => `${d.type}: ${d.valueString}`)),
        ],
        ['by', r.agent.map((agent) => who(agent.who))],
        ['recorded', r.recorded],
        ['source', who(r.source.observer)],
      ]
  }
}

const serviceRequest = (r: ServiceRequest): readonly Cell[] => [
  ['test', concept(r.code)],
  ['order', r.requisition?.value],
  ['status', r.status],
  ['priority', r.priority],
  ['patient', who(r.subject)],
  ['requester', r.requester && who(r.requester)],
  ['due', r.occurrenceDateTime],
  ['reason', r.reasonCode?.map(concept) ?? []],
]

const specimen = ({ collection, ...r }: Specimen): readonly Cell[] => [
  ['number', numbers(r.identifier)],
  ['accession', r.accessionIdentifier?.value],
  ['status', r.status],
  ['type', concept(r.type)],
  ['patient', who(r.subject)],
  ['collected', collection.collectedDateTime ?? period(collection.collectedPeriod)],
  ['by', who(collection.collector)],
  ['site', collection.bodySite && concept(collection.bodySite)],
  ['volume', quantity(collection.quantity)],
  ['container', r.container.map(({ type, description }) => joined(concept(type), description))],
  ['additive', r.container.map(({ additiveCodeableConcept }) => concept(additiveCodeableConcept))],
  [
    'handling',
    collection.extension?.map(({ valueCodeableConcept }) => concept(valueCodeableConcept)) ?? [],
  ],
  ['received', r.receivedTime],
  [
    'processing',
    r.processing?.map((done) =>
      joined(done.description, done.timeDateTime ?? period(done.timePeriod)),
    ) ?? [],
  ],
  ['condition', r.condition?.map(concept) ?? []],
  ['note', r.note?.map(({ text }) => text) ?? []],
]

const procedure = (r: Procedure): readonly Cell[] => [
  ['what', concept(r.code)],
  ['number', numbers(r.identifier)],
  ['status', r.status, r.statusReason && concept(r.statusReason)],
  ['patient', who(r.subject)],
  ['performed', period(r.performedPeriod)],
  ['by', r.performer.map(({ actor }) => who(actor))],
  ['site', r.bodySite?.map(concept) ?? []],
  ['needle', r.usedCode?.map(concept) ?? []],
  ['complication', r.complication?.map(concept) ?? []],
  ['note', r.note?.map(({ text }) => text) ?? []],
]

const observation = (r: Observation): readonly Cell[] => [
  ['what', concept(r.code)],
  ['status', r.status],
  ['patient', who(r.subject)],
  ['at', period(r.effectivePeriod)],
  ['by', r.performer.map(who)],
  ['length', quantity(r.valueQuantity)],
  ['site', r.bodySite && concept(r.bodySite)],
]

const joined = (...parts: readonly Value[]): string => parts.filter(Boolean).join(', ')

/** The words of a concept: its own text, else the display or the code of what codes it. */
const concept = (value: CodeableConcept | undefined): Value =>
  value?.text ?? value?.coding?.map(({ display, code }) => display ?? code).join(', ')

const who = ({ display, identifier }: Reference): Value => display ?? identifier?.value

const numbers = (identifiers: readonly Identifier[] = []): readonly string[] =>
  identifiers.map(({ value }) => value)

const period = (value: Period | undefined): Value => value && joined(value.start, value.end)

const quantity = (value: Quantity | undefined): Value => value && `${value.value} ${value.unit}`
