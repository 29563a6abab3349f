import { ADDITIVES, type Additive } from '../../src/core/catalogue/additives.ts'
import { LOCAL } from '../../src/core/fhir/codes.ts'
import type { DrawSummary, TubeSummary } from './drawSummary.ts'
import type {
  AnyResource,
  Bundle,
  CodeableConcept,
  Consent,
  Practitioner,
  Specimen,
  ServiceRequest,
} from '../../src/core/fhir/resources.ts'
import recordJson from '../../src/data/en/record.json' with { type: 'json' }

const { mixed, filledShort, spun, consentGuardian, consentInterpreter } = recordJson.fhir

/**
 * Reads a draw back out of a bundle that `writeBundle` made: everything R4 has a place for.
 * @throws RangeError when a resource is missing that such a bundle always has.
 */
export function readBundle(bundle: Bundle): DrawSummary {
  const all = <T extends AnyResource['resourceType']>(type: T) =>
    bundle.entry
      .map(({ resource }) => resource)
      .filter((r): r is Extract<AnyResource, { resourceType: T }> => r.resourceType === type)
  const byUrl = new Map(bundle.entry.map(({ fullUrl, resource }) => [fullUrl, resource]))
  const people = (ref: { reference?: string } | undefined): Practitioner | undefined => {
    const found = byUrl.get(ref?.reference ?? '')
    return found?.resourceType === 'Practitioner' ? found : undefined
  }
  const patient = one(all('Patient'), 'Patient')
  const procedure = one(
    all('Procedure').filter(({ partOf }) => !partOf),
    'Procedure',
  )
  const requests = all('ServiceRequest')
  const request = one(requests.slice(0, 1), 'ServiceRequest')
  const document = one(all('DocumentReference'), 'DocumentReference')
  return {
    drawId: bundle.identifier.value,
    invented: bundle.meta?.tag.some(({ code }) => code === 'HTEST') ?? false,
    recorded: bundle.timestamp,
    fullName: patient.name?.[0]?.text,
    birthDate: patient.birthDate,
    recordNumber: patient.identifier?.[0]?.value,
    sex: patient.gender,
    orderNumber: request.requisition?.value,
    provider: request.requester?.display,
    priority: request.priority,
    tests: requests.flatMap(testOf),
    collectors: all('Practitioner').map(personOf),
    status: procedure.status,
    reason: procedure.statusReason?.text,
    needleIn: procedure.performedPeriod?.start,
    needleOut: procedure.performedPeriod?.end,
    sites: (procedure.bodySite ?? []).flatMap((site) => local(site, LOCAL.site) ?? []),
    difficulties: (procedure.complication ?? []).flatMap(({ coding }) => coding?.[0]?.code ?? []),
    consent: all('Consent').map(consentOf)[0],
    bands: all('Observation').map(({ code, effectivePeriod }) => ({
      search: local(code, LOCAL.observation) === 'tourniquetSearch',
      on: effectivePeriod.start,
      off: effectivePeriod.end,
    })),
    tubes: all('Specimen').map((specimen) =>
      tubeOf(specimen, people(specimen.collection.collector)),
    ),
    noteStatus: document.docStatus,
  }
}

function one<T>(found: readonly T[], what: string): T {
  const [first, ...more] = found
  if (first === undefined || more.length > 0) {
    throw new RangeError(`The bundle should hold one ${what} and holds ${found.length}.`)
  }
  return first
}

const local = (concept: CodeableConcept | undefined, system: string): string | undefined =>
  concept?.coding?.find((coding) => coding.system === system)?.code

function consentOf({ status, dateTime, performer = [], category }: Consent) {
  const who = performer.map(({ reference, display }) => (reference ? 'patient' : display))
  const by: NonNullable<DrawSummary['consent']>['by'] = who.includes(consentInterpreter)
    ? 'interpreter'
    : who.includes(consentGuardian)
      ? 'guardian'
      : who.includes('patient')
        ? 'patient'
        : undefined
  return { status, at: dateTime, by, form: local(category[1], LOCAL.consent) }
}

const testOf = (request: ServiceRequest): string[] => {
  const code = local(request.code, LOCAL.test)
  return code === undefined ? [] : [code]
}

const personOf = ({ identifier, name }: Practitioner): DrawSummary['collectors'][number] => ({
  id: identifier.find(({ system }) => system === LOCAL.collector)?.value,
  initials: identifier.find(({ system }) => system === LOCAL.initials)?.value,
  name: name?.[0]?.text,
})

function tubeOf(specimen: Specimen, collector: Practitioner | undefined): TubeSummary {
  const { collection } = specimen
  const container = specimen.container[0]
  const when = (what: string): string | undefined =>
    specimen.processing?.find(({ description }) => description === what)?.timeDateTime
  const additive = local(container?.additiveCodeableConcept, LOCAL.additive)
  return {
    specimenNumber: specimen.identifier[0]?.value,
    tubeCode: local(container?.type, LOCAL.tube),
    tubeName: container?.type.text,
    additive: ADDITIVES.find((known): known is Additive => known === additive),
    nominal_mL: container?.capacity?.value,
    drawn_mL: collection.quantity?.value,
    packet: container?.description,
    short: specimen.condition?.some(({ text }) => text === filledShort) ?? false,
    on: collection.collectedPeriod?.start ?? collection.collectedDateTime,
    off: collection.collectedPeriod?.end,
    mixed: when(mixed),
    spun: when(spun),
    site: local(collection.bodySite, LOCAL.site),
    collectorId: collector && personOf(collector).id,
    fasted_h: collection.fastingStatusDuration?.value,
    tests: specimen.request?.length ?? 0,
  }
}
