import { ok, type Result } from '../../core/basics/result.ts'
import { transactionOf, type TransactionFault } from '../../core/fhir/transaction.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import { recordBundle, type RecordSite } from './recordBundle.ts'

/** The draw as a FHIR R4 transaction for the site's record server, as text; or why there can be none. */
export function transactionText(
  log: DrawLog,
  site: RecordSite,
  sha256: Sha256,
): Result<string, TransactionFault> {
  const transaction = transactionOf(recordBundle(log, site, sha256), site.recordSystems)
  return transaction.ok ? ok(`${JSON.stringify(transaction.value, null, 2)}\n`) : transaction
}
