import type { LabelWords } from '../../core/record/labels.ts'
import type { SiteData } from '../site/siteData.ts'

/** Tests of the shipped catalog whose tube goes to transfusion. A site's own codes are added here by the same names. */
const TRANSFUSION: readonly string[] = ['bloodGroup', 'bloodGroupSecond', 'crossmatch', 'dat']

/** What labels need of a site beside the record. */
export function labelWords({ texts }: Pick<SiteData, 'texts'>): LabelWords {
  const { arm: arms, vein: veins } = texts.note.words
  return {
    isTransfusion: (code) => TRANSFUSION.includes(code),
    siteText: (arm, vein) => [arms[arm], ...(vein ? [veins[vein]] : [])].join(', '),
  }
}
