import { findTest } from '../../core/catalogue/catalogue.ts'
import type { LabelWords } from '../../core/record/labels.ts'
import type { SiteData } from '../site/siteData.ts'

/** What labels need of a site beside the record. */
export function labelWords({
  texts,
  catalogue,
}: Pick<SiteData, 'texts' | 'catalogue'>): LabelWords {
  const { arm: arms, vein: veins } = texts.note.words
  return {
    isTransfusion: (code) => findTest(catalogue, code)?.transfusion === true,
    siteText: (arm, vein) => [arms[arm], ...(vein ? [veins[vein]] : [])].join(', '),
  }
}
