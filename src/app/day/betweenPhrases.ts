import { BETWEEN_COMMANDS, type BetweenCommand } from '../../core/voice/betweenCommands.ts'
import type { BetweenPhraseBook } from '../site/betweenPhraseBook.ts'

/** What may be said between patients: phrase to command. */
export function betweenPhrases({
  phrases,
}: BetweenPhraseBook): ReadonlyMap<string, BetweenCommand> {
  return new Map(
    BETWEEN_COMMANDS.flatMap((key) => phrases[key].map((phrase) => [phrase, key] as const)),
  )
}
