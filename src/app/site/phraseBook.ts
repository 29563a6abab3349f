/** Phrases by command, as the phrases data file of a language holds them. First wording first. */
export interface PhraseBook {
  readonly language: string
  readonly phrases: Readonly<Record<string, readonly string[] | undefined>>
  /** One neutral wording more, for what is not said before a patient. */
  readonly discreet?: Readonly<Record<string, string | undefined>>
}

/** Every wording of a command, the one to show first. @param isDiscreet a patient hears what is said */
export function wordingsOf(
  { phrases, discreet }: PhraseBook,
  key: string,
  isDiscreet = false,
): readonly string[] {
  const plain = phrases[key] ?? []
  const neutral = discreet?.[key]
  if (neutral === undefined) return plain
  return isDiscreet ? [neutral, ...plain] : [...plain, neutral]
}

/** Every wording of every command, as whoever checks or measures them wants them. */
export function allWordings(book: PhraseBook): Readonly<Record<string, readonly string[]>> {
  return Object.fromEntries(Object.keys(book.phrases).map((key) => [key, wordingsOf(book, key)]))
}
