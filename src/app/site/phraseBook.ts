/** Phrases by command, as the phrases data file of a language holds them. First wording first. */
export interface PhraseBook {
  readonly language: string
  readonly phrases: Readonly<Record<string, readonly string[] | undefined>>
  /** Commands that are open at every step. */
  readonly alwaysOpen: readonly string[]
  /** Safety commands: they act on the first hearing, also while a prompt plays. */
  readonly actAtOnce: readonly string[]
}
