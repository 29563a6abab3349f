import { fillText } from '../basics/fillText.ts'
import type { PunctureFact } from '../record/drawFacts.ts'
import type { NoteTemplate } from '../record/noteTemplate.ts'
import { siteConcept, skinSiteConcept } from './codes.ts'
import type { CodeableConcept } from './resources.ts'

/** Where a puncture was; `undefined` where nobody said. */
export function siteOf(
  { arm, vein, skin: collecting }: PunctureFact,
  words: NoteTemplate['words'],
): CodeableConcept | undefined {
  if (!arm) return undefined
  if (!collecting) return siteConcept(arm, vein)
  const values = { side: words.arm[arm], place: words.collecting[collecting] }
  return skinSiteConcept(arm, collecting, fillText(words.skin.site, values))
}
