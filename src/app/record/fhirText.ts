import type { DrawLog } from '../../core/protocol/entry.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import { recordBundle, type RecordSite } from './recordBundle.ts'

/** The draw as a FHIR R4 bundle, as the text of a file. */
export function fhirText(log: DrawLog, site: RecordSite, sha256: Sha256): string {
  return `${JSON.stringify(recordBundle(log, site, sha256), null, 2)}\n`
}
