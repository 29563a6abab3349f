import { ok, type Result } from '../../core/basics/result.ts'
import { writeBundle } from '../../core/fhir/bundle.ts'
import { transactionOf, type TransactionFault } from '../../core/fhir/transaction.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import type { SiteData } from '../site/siteData.ts'
import { testInfo } from './testInfo.ts'

/** The draw as a FHIR R4 transaction for the site's record server, as text; or why there can be none. */
export function transactionText(
  log: DrawLog,
  { catalogue, texts, recordSystems }: Pick<SiteData, 'catalogue' | 'texts' | 'recordSystems'>,
  sha256: Sha256,
): Result<string, TransactionFault> {
  const bundle = writeBundle(log, texts, sha256, testInfo(catalogue), recordSystems)
  const transaction = transactionOf(bundle, recordSystems)
  return transaction.ok ? ok(`${JSON.stringify(transaction.value, null, 2)}\n`) : transaction
}
