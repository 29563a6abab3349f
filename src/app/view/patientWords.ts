import { fillText } from '../../core/basics/fillText.ts'
import type { Language } from '../../core/basics/language.ts'
import { isCapillary, tooYoungForBandage } from '../../core/protocol/facts.ts'
import { limit } from '../../core/policy/policy.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import type { LanguageTexts } from '../site/languageTexts.ts'

type Leaflet = LanguageTexts['leaflet']

/** What the patient of a draw is told, and in which language; the words stand in the leaflet of that language. */
export interface PatientView {
  /** Not known of draws from before there was a choice. */
  readonly language?: Language
  readonly before: keyof Leaflet['explanation']
  readonly after: keyof Leaflet['aftercare']
  /** How long the bandage stays on at this site. */
  readonly bandage_min: number
}

export function patientView(s: DrawState): PatientView {
  const skin = isCapillary(s)
  return {
    ...(s.patientLanguage && { language: s.patientLanguage }),
    before: skin ? 'skin' : 'arm',
    after: tooYoungForBandage(s) ? 'infant' : skin ? 'skin' : 'arm',
    bandage_min: limit(s.opened.policy, 'bandage_min'),
  }
}

/** The explanation before the draw, sentence by sentence. */
export const explanationLines = (leaflet: Leaflet, { before }: PatientView): readonly string[] =>
  leaflet.explanation[before]

/** The aftercare, sentence by sentence, with the site's own limit. */
export const aftercareLines = (
  leaflet: Leaflet,
  { after, bandage_min }: PatientView,
): readonly string[] => leaflet.aftercare[after].map((line) => fillText(line, { bandage_min }))
