import type english from '../../data/en/language.json'
import type { TextsOf } from './screenTexts.ts'

/** `language.json` of a language: which one the screens have, and what the patient gets in which. */
export type LanguageTexts = TextsOf<typeof english>
