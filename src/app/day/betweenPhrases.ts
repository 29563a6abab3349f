import {
  BETWEEN_COMMANDS,
  PACK_COMMANDS,
  type BetweenCommand,
} from '../../core/voice/betweenCommands.ts'
import type { BetweenPhraseBook } from '../site/betweenPhraseBook.ts'

/** What may be said between patients: phrase to command; of packs only where packs are counted. */
export function betweenPhrases(
  { phrases }: BetweenPhraseBook,
  mayCount: boolean,
): ReadonlyMap<string, BetweenCommand> {
  return new Map(
    BETWEEN_COMMANDS.filter((key) => mayCount || !PACK_COMMANDS.has(key)).flatMap((key) =>
      phrases[key].map((phrase) => [phrase, key] as const),
    ),
  )
}
