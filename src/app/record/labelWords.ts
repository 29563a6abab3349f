import { fillText } from '../../core/basics/fillText.ts'
import { findTest, type TestRow } from '../../core/catalogue/catalogue.ts'
import type { LabelWords } from '../../core/record/labels.ts'
import type { SiteData } from '../site/siteData.ts'

/** The first of a test's other names where it is shorter, as an order names it: `TSH`; else its name. */
function shortName(test: TestRow | undefined): string | undefined {
  const [alias] = test?.aliases ?? []
  return alias !== undefined && test && alias.length < test.name.length ? alias : test?.name
}

/** What labels need of a site beside the record. */
export function labelWords({
  texts,
  catalogue,
}: Pick<SiteData, 'texts' | 'catalogue'>): LabelWords {
  const { arm: arms, vein: veins, collecting, skin } = texts.note.words
  return {
    shortName: (code) => shortName(findTest(catalogue, code)) ?? code,
    isTransfusion: (code) => findTest(catalogue, code)?.transfusion === true,
    skinText: (place, side) => fillText(skin.label, { side: arms[side], place: collecting[place] }),
    siteText: (arm, vein) => [arms[arm], ...(vein ? [veins[vein]] : [])].join(', '),
  }
}
