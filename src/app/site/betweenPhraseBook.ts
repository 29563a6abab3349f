import type { BetweenCommand } from '../../core/voice/betweenCommands.ts'

/** `betweenPhrases.json` of a language: wordings by command, the one that is shown first. */
export interface BetweenPhraseBook {
  readonly language: string
  readonly phrases: Readonly<Record<BetweenCommand, readonly string[]>>
}
