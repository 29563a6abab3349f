import type { TransactionFault } from '../../core/fhir/transaction.ts'

/** What is set of the site's record server, each with its label and what it is. */
export type SystemField = 'base' | 'patient' | 'practitioner' | 'order' | 'visit' | 'provider'

/** Texts about the site's record server (FHIR). */
export interface RecordServerTexts {
  readonly title: string
  readonly about: string
  readonly fields: Readonly<Record<SystemField, { readonly label: string; readonly hint: string }>>
  readonly create: Readonly<Record<'patient' | 'practitioner' | 'order', string>>
  readonly foundBy: string
  readonly foundByNames: Readonly<Record<'requisition' | 'identifier', string>>
  /** What is wrong with an address. */
  readonly notAddress: string
  readonly notWeb: string
  /** An order of one request for all its tests cannot be created here. */
  readonly notCreated: string
  readonly keep: string
  /** Kept on this device and no longer readable. */
  readonly unread: string
  /** Why a record cannot be made ready for it. */
  readonly faults: Readonly<Record<TransactionFault, string>>
}
