import type { Language } from './language.ts'
import { shownLanguage } from './locale.ts'

/** What a language is called in another one, as Unicode CLDR has it: `Spanish`, `español`. */
export const languageName = (language: Language, inThat = shownLanguage()): string =>
  new Intl.DisplayNames([inThat], { type: 'language' }).of(language) ?? language
