import type { CommandKey } from '../../core/protocol/commands.ts'
import type { OpenCommands } from '../../core/protocol/openCommands.ts'
import type { PhraseBook } from '../site/phraseBook.ts'

/** What may be said at a moment: phrase to command, in the phrase book's order. */
export type OpenPhrases = ReadonlyMap<string, CommandKey>

/**
 * Phrases open now. While a question is open only its answers and the safety phrases are; while listening is paused
 * only the words that end the pause.
 */
export function openPhrases(
  open: OpenCommands,
  book: PhraseBook,
  mode: { readonly asking: boolean; readonly paused: boolean },
): OpenPhrases {
  const keys: readonly CommandKey[] = mode.paused
    ? ['resumeListening']
    : mode.asking
      ? ['confirmYes', 'confirmNo', ...open.always]
      : [
          ...(open.main ? [open.main] : []),
          ...open.step,
          ...open.always.filter((key) => key !== 'resumeListening'),
        ]
  const phrases = new Map<string, CommandKey>()
  for (const key of keys) {
    for (const phrase of book.phrases[key] ?? []) if (!phrases.has(phrase)) phrases.set(phrase, key)
  }
  return phrases
}
