/** Phrases by command, as the phrases data file of a language holds them. First wording first. */
export interface PhraseBook {
  readonly language: string
  readonly phrases: Readonly<Record<string, readonly string[] | undefined>>
}
