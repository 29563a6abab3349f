import { isLanguage, type Language } from '../../src/core/basics/language.ts'
import { showIn } from '../../src/core/basics/locale.ts'
import { LANGUAGE_FILES } from '../../src/data/languages.ts'

/** `STILLHAND_LANGUAGE=es` runs what is shown in Spanish; in the gallery it is asked for by `?language=es`. */
const wanted =
  typeof process === 'undefined'
    ? new URLSearchParams(location.search).get('language')
    : process.env['STILLHAND_LANGUAGE']

/** The language of the site, the scenes and the gallery of tests. */
export const LANGUAGE: Language = isLanguage(wanted) ? wanted : 'en'
export const { texts, words, prompts } = LANGUAGE_FILES[LANGUAGE]

showIn(LANGUAGE)
