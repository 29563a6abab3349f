import type { Findings } from '../findings.ts'
import { quoted } from '../../../core/text/shownText.ts'
import type { Patient, Reference } from './resources.ts'

/** The patient of a bundle, with the address that requests may name it by. */
export interface BundlePatient {
  readonly resource: Patient
  readonly fullUrl: string | undefined
}

/**
 * Is a request for the bundle's patient? R4 resolves a reference in a bundle against the full addresses of its
 * entries, a relative one against type and id (bundle.html, "Resolving references in Bundles"); a reference to a
 * contained resource (`#`) is another one.
 */
export function checkSubject(
  subject: Reference | undefined,
  item: string,
  patient: BundlePatient,
  findings: Findings,
): void {
  const { reference, identifier, type } = subject ?? {}
  const shown = quoted(subject?.display ?? reference ?? identifier?.value ?? '')
  if (type !== undefined && type !== 'Patient') {
    findings.refuse('otherSubject', { item, subject: quoted(type) })
  } else if (reference !== undefined) {
    if (!isPatient(reference, patient)) findings.refuse('otherSubject', { item, subject: shown })
  } else if (identifier?.value !== undefined) {
    const known = (patient.resource.identifier ?? []).some(
      ({ value, system }) =>
        value === identifier.value &&
        (system === identifier.system || !system || !identifier.system),
    )
    if (!known) findings.refuse('otherSubject', { item, subject: shown })
  } else {
    findings.ask('noSubject', { item })
  }
}

function isPatient(reference: string, { resource, fullUrl }: BundlePatient): boolean {
  const plain = reference.replace(/\/_history\/[^/]+$/, '')
  const relative = resource.id === undefined ? undefined : `Patient/${resource.id}`
  return plain === fullUrl || plain === relative || fullUrl?.endsWith(`/${plain}`) === true
}
