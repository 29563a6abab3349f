import type { Language } from '../core/basics/language.ts'

/**
 * The recorded voices of each language, the one that speaks where none was chosen first. `npm run prompts:make` records
 * what is listed here; where a language has none, the browser's own voice speaks.
 */
export const RECORDED_VOICES: Readonly<Record<Language, readonly string[]>> = {
  en: ['af_heart', 'am_michael'],
  es: ['ef_dora'],
}
