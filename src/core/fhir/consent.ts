import { defined } from '../basics/defined.ts'
import type { ConsentBy } from '../protocol/events.ts'
import { isoLocal } from '../time/format.ts'
import type { Stamp } from '../time/stamp.ts'
import { noteWords } from '../record/noteWords.ts'
import type { DrawFacts } from '../record/drawFacts.ts'
import { LOCAL } from './codes.ts'
import { NAME, type FhirContext } from './context.ts'
import type { CodeableConcept, Consent, Reference } from './resources.ts'

/** `treatment` is R4's scope for an agreement to a procedure (value set consent-scope). */
const SCOPE = {
  system: 'http://terminology.hl7.org/CodeSystem/consentscope',
  code: 'treatment',
  display: 'Treatment',
} as const
/** Of the value set consent-category, which takes this one code from LOINC for it. */
const PATIENT_CONSENT = {
  system: 'http://loinc.org',
  code: '59284-0',
  display: 'Patient Consent',
} as const

/**
 * The last word on consent: `active` where it was given, `rejected` where it was refused, `inactive` from when it was
 * taken back. None where nobody recorded any. R4's rules ppc-1 (a policy or a policy rule) and ppc-5 (a patient, for
 * treatment) are kept.
 */
export function consents(context: FhirContext): readonly Consent[] {
  const { facts, head, numberOf, refTo, texts, tests, say } = context
  const told = lastWord(facts)
  if (!told) return []
  const { status, at, by, form, heldFrom } = told
  const words = noteWords(texts.note, facts.openedAt, tests.testName)
  const asTaken: readonly CodeableConcept[] = form
    ? [
        {
          coding: [{ system: LOCAL.consent, code: form }],
          text: words.word('consentForm', form),
        },
      ]
    : []
  return [
    {
      ...head('Consent', NAME.consent),
      ...defined({
        identifier: numberOf(NAME.consent),
        status,
        scope: { coding: [SCOPE] },
        category: [{ coding: [PATIENT_CONSENT] }, ...asTaken],
        patient: refTo(NAME.patient, facts.opened.patient.fullName),
        dateTime: isoLocal(at),
        performer: by && performers(by, context),
        sourceReference: refTo(NAME.note),
        policyRule: { text: say('consentPolicy') },
        provision: {
          type: status === 'active' ? ('permit' as const) : ('deny' as const),
          ...(heldFrom && { period: { start: isoLocal(heldFrom), end: isoLocal(at) } }),
        },
      }),
    },
  ]
}

interface LastWord {
  readonly status: Consent['status']
  readonly at: Stamp
  readonly by?: ConsentBy | undefined
  readonly form?: NonNullable<DrawFacts['consent']>['form'] | undefined
  /** Consent that was taken back had been given then. */
  readonly heldFrom?: Stamp
}

function lastWord({ consent, exceptions }: DrawFacts): LastWord | undefined {
  const taken = exceptions.findLast(({ kind }) => kind === 'consentWithdrawn')
  if (!taken || (consent && consent.at.at_ms > taken.at.at_ms)) {
    if (!consent) return undefined
    const { at, by, form, given } = consent
    return { status: given ? 'active' : 'rejected', at, by, form }
  }
  if (!consent?.given) return { status: 'rejected', at: taken.at }
  const { by, form, at } = consent
  return { status: 'inactive', at: taken.at, by, form, heldFrom: at }
}

/** Who agreed. A parent, a guardian and an interpreter have no record of their own here: they are named as such. */
function performers(by: ConsentBy, { refTo, facts, say }: FhirContext): readonly Reference[] {
  const patient = refTo(NAME.patient, facts.opened.patient.fullName)
  if (by === 'guardian') return [{ display: say('consentGuardian') }]
  return by === 'interpreter' ? [patient, { display: say('consentInterpreter') }] : [patient]
}
