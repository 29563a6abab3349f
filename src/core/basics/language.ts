/** The languages that the app has texts of, English first: what nothing else was chosen for is English. */
export const LANGUAGES = ['en', 'es'] as const
export type Language = (typeof LANGUAGES)[number]

export const isLanguage = (value: unknown): value is Language =>
  LANGUAGES.some((language) => language === value)
