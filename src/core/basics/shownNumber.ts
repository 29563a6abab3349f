import type { Language } from './language.ts'
import { shownLanguage } from './locale.ts'

const DECIMAL: Readonly<Record<Language, string>> = { en: '.', es: ',' }

/**
 * A number for eyes, `2,75` in Spanish. Thousands are not parted: a sign that is the decimal sign of another language
 * would be read as one. For screens and paper only; files, codes and messages keep the point.
 * @param places as many places behind the sign; without it as the number has
 */
export function shownNumber(value: number, places?: number, language = shownLanguage()): string {
  const figures = places === undefined ? String(value) : value.toFixed(places)
  return figures.replace('.', DECIMAL[language])
}
