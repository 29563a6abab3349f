import type { DrawLog } from '../protocol/entry.ts'
import type { Sha256 } from '../log/seal.ts'
import { LOCAL } from './codes.ts'
import { compact } from './compact.ts'
import {
  fhirContext,
  NO_TEST_INFO,
  type FhirContext,
  type FhirTexts,
  type TestInfo,
} from './context.ts'
import { consents } from './consent.ts'
import { documentReference } from './documentReference.ts'
import { patient, practitioners } from './patient.ts'
import { procedure, skinProcedures } from './procedure.ts'
import { auditEvents, provenance } from './provenance.ts'
import type { AnyResource, Bundle } from './resources.ts'
import { serviceRequests } from './serviceRequest.ts'
import { specimen } from './specimen.ts'
import { bandObservations } from './bandObservation.ts'
import { sittingTasks } from './sittingTasks.ts'
import { tasks } from './task.ts'
import { NO_SITE_SYSTEMS, withSystems, type SiteSystems } from './siteSystems.ts'
import { withNarrative } from './narrative.ts'
import { asWrongPerson, isOfAnother } from './wrongPerson.ts'
import { uuidOf } from './uuid.ts'

/**
 * The draw as a FHIR R4 (4.0.1) Bundle of type collection. The same log always gives the same bundle.
 * @param tests what the catalogue knows of the tests; their codes as they are without it.
 * @param site how the site's record server names what the record is about.
 */
export function writeBundle(
  log: DrawLog,
  texts: FhirTexts,
  sha256: Sha256,
  tests: TestInfo = NO_TEST_INFO,
  site: SiteSystems = NO_SITE_SYSTEMS,
): Bundle {
  const context = fhirContext(log, texts, sha256, tests)
  const written = resourcesOf(context)
  const resources = isOfAnother(context.facts) ? written.map(asWrongPerson) : written
  const told = resources.map((resource) => withNarrative(resource, texts.record.narrative))
  const bundle: Bundle = {
    resourceType: 'Bundle',
    id: uuidOf(log.drawId, sha256),
    ...context.mark,
    identifier: { system: LOCAL.draw, value: log.drawId },
    type: 'collection',
    timestamp: context.recorded,
    entry: told.map((resource) => ({ fullUrl: `urn:uuid:${resource.id}`, resource })),
  }
  return compact(withSystems(bundle, site))
}

const resourcesOf = (context: FhirContext): readonly AnyResource[] => [
  patient(context),
  ...practitioners(context),
  ...serviceRequests(context),
  ...context.specimens.map((fact) => specimen(context, fact)),
  ...tasks(context),
  ...sittingTasks(context),
  procedure(context),
  ...skinProcedures(context),
  ...consents(context),
  ...bandObservations(context),
  documentReference(context),
  provenance(context),
  ...auditEvents(context),
]
