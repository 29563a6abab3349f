import { writeBundle } from '../../src/core/fhir/bundle.ts'
import type { SiteSystems } from '../../src/core/fhir/siteSystems.ts'
import { transactionOf, type Transaction } from '../../src/core/fhir/transaction.ts'
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import { texts } from '../../src/data/en/texts.ts'
import { sha256 } from './sampleLog.ts'

export const MRN = 'https://example.org/mrn'
export const STAFF = 'https://example.org/staff'
export const ORDERS = 'https://example.org/orders'

/** A site that lets everything be created. */
export const OPEN_SITE: SiteSystems = {
  patient: { system: MRN, create: true },
  practitioner: { system: STAFF, create: true },
  order: { system: ORDERS, create: true, foundBy: 'requisition' },
}
/** A site where people and orders must be there. */
export const STRICT_SITE: SiteSystems = {
  patient: { system: MRN, create: false },
  practitioner: { system: STAFF, create: false },
  order: { system: ORDERS, create: false, foundBy: 'requisition' },
}

/** @throws Error with the faults where there can be no transaction */
export function transactionFor(log: DrawLog, site: SiteSystems): Transaction {
  const made = transactionOf(writeBundle(log, texts, sha256, undefined, site), site)
  if (!made.ok) throw new Error(made.faults.join(', '))
  return made.value
}
