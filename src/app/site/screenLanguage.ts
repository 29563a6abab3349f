import { isLanguage, type Language } from '../../core/basics/language.ts'
import type { SiteData } from './siteData.ts'

/** The language that this page speaks; the setting may say another one for after the draw. */
export function screenLanguage({ texts }: Pick<SiteData, 'texts'>): Language {
  const { language } = texts.language
  return isLanguage(language) ? language : 'en'
}
