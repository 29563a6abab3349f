/** What to do with a request or a name that carries a code: take it, ask a person, or refuse it. */
export type Verdict = 'take' | 'ask' | 'refuse'

/**
 * HL7 FHIR R4, value set request-status. Only an active request is one to act on; of `unknown` R4 says that the
 * sender does not know which of the others applies.
 */
export const REQUEST_STATUS: Readonly<Record<string, Verdict>> = {
  draft: 'refuse',
  active: 'take',
  'on-hold': 'refuse',
  revoked: 'refuse',
  completed: 'refuse',
  'entered-in-error': 'refuse',
  unknown: 'ask',
}

/**
 * HL7 FHIR R4, value set request-intent. An order of any kind authorizes; a proposal, a plan and an option do not.
 * A directive binds in law but comes from a patient or a relative.
 */
export const REQUEST_INTENT: Readonly<Record<string, Verdict>> = {
  proposal: 'refuse',
  plan: 'refuse',
  directive: 'ask',
  order: 'take',
  'original-order': 'take',
  'reflex-order': 'take',
  'filler-order': 'take',
  'instance-order': 'take',
  option: 'refuse',
}

/** HL7 FHIR R4, value set name-use. Who a person was called is not who they are called. */
export const NAME_USE: Readonly<Record<string, Verdict>> = {
  usual: 'take',
  official: 'take',
  temp: 'ask',
  nickname: 'ask',
  anonymous: 'ask',
  old: 'refuse',
  maiden: 'refuse',
}

/** HL7 FHIR R4, value set identifier-use. A secondary number means something only where it was given. */
export const IDENTIFIER_USE: Readonly<Record<string, Verdict>> = {
  usual: 'take',
  official: 'take',
  temp: 'ask',
  secondary: 'ask',
  old: 'refuse',
}

/** HL7 FHIR R4, value set request-priority, lowest first. */
export const PRIORITIES = ['routine', 'urgent', 'asap', 'stat'] as const
