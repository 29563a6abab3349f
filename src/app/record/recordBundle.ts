import { inLanguage } from '../../core/basics/locale.ts'
import { writeBundle } from '../../core/fhir/bundle.ts'
import type { Bundle } from '../../core/fhir/resources.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import type { SiteData } from '../site/siteData.ts'
import { testInfo } from './testInfo.ts'

export type RecordSite = Pick<SiteData, 'catalogue' | 'recordTexts' | 'recordSystems'>

/** The draw as a FHIR R4 bundle. Its texts are English whatever the screens are: one record does not become two. */
export function recordBundle(log: DrawLog, site: RecordSite, sha256: Sha256): Bundle {
  const { catalogue, recordTexts, recordSystems } = site
  return inLanguage('en', () =>
    writeBundle(log, recordTexts, sha256, testInfo(catalogue), recordSystems),
  )
}
