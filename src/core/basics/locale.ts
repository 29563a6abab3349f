import type { Language } from './language.ts'

/**
 * The language in which numbers and dates are written for eyes. It is one for a page from its start to its end, as the
 * zone of the machine is, and is set once where the app is wired. What is written in another one, such as the
 * record for machines, is written within `inLanguage`.
 */
let shown: Language = 'en'

export const shownLanguage = (): Language => shown

/** Set once, before anything is shown. */
export function showIn(language: Language): void {
  shown = language
}

/** What `write` answers, with numbers and dates as that language has them. It must not wait for anything. */
export function inLanguage<T>(language: Language, write: () => T): T {
  const before = shown
  shown = language
  try {
    return write()
  } finally {
    shown = before
  }
}
