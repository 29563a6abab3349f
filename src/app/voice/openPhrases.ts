import { answersTo, type Ask } from '../../core/protocol/asks.ts'
import { SAFETY_COMMANDS } from '../../core/protocol/commandTable.ts'
import type { CommandKey } from '../../core/protocol/commands.ts'
import type { OpenCommands } from '../../core/protocol/openCommands.ts'
import { wordingsOf, type PhraseBook } from '../site/phraseBook.ts'

/** Which question is open, and whether listening is paused. */
interface OpenMode {
  readonly asking: Ask | undefined
  readonly paused: boolean
}

/** What may be said at a moment: phrase to command, in the phrase book's order. */
export type OpenPhrases = ReadonlyMap<string, CommandKey>

/**
 * Phrases open now. While a question is open only its answers and what is always open are; while listening is paused
 * only the safety phrases and the words that end the pause: help is heard at any time.
 */
export function openPhrases(open: OpenCommands, book: PhraseBook, mode: OpenMode): OpenPhrases {
  const phrases = new Map<string, CommandKey>()
  for (const key of keysOf(open, mode)) {
    for (const phrase of wordingsOf(book, key)) if (!phrases.has(phrase)) phrases.set(phrase, key)
  }
  return phrases
}

const SAFETY: ReadonlySet<string> = new Set(SAFETY_COMMANDS)

function keysOf({ main, step, always }: OpenCommands, mode: OpenMode): readonly CommandKey[] {
  if (mode.paused) return ['resumeListening', ...always.filter((key) => SAFETY.has(key))]
  if (mode.asking) return ['confirmYes', 'confirmNo', ...answersTo(mode.asking), ...always]
  return [...(main ? [main] : []), ...step, ...always.filter((key) => key !== 'resumeListening')]
}
