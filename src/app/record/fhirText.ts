import { writeBundle } from '../../core/fhir/bundle.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import type { SiteData } from '../site/siteData.ts'
import { testInfo } from './testInfo.ts'

/** The draw as a FHIR R4 bundle, as the text of a file. */
export function fhirText(
  log: DrawLog,
  site: Pick<SiteData, 'catalogue' | 'texts' | 'recordSystems'>,
  sha256: Sha256,
): string {
  const bundle = writeBundle(log, site.texts, sha256, testInfo(site.catalogue), site.recordSystems)
  return `${JSON.stringify(bundle, null, 2)}\n`
}
