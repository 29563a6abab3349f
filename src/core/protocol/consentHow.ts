import type { ConsentBy, ConsentForm } from './events.ts'

/** Ways to agree besides the patient's own word. */
export const CONSENT_WAYS = [
  'guardian',
  'guardianWritten',
  'interpreter',
  'written',
  'implied',
] as const
export type ConsentHow = (typeof CONSENT_WAYS)[number]

/** Who agreed, and how. */
export const CONSENT_HOW: Readonly<
  Record<ConsentHow, { readonly by: ConsentBy; readonly form: ConsentForm }>
> = {
  guardian: { by: 'guardian', form: 'spoken' },
  guardianWritten: { by: 'guardian', form: 'written' },
  interpreter: { by: 'interpreter', form: 'spoken' },
  written: { by: 'patient', form: 'written' },
  implied: { by: 'patient', form: 'implied' },
}
