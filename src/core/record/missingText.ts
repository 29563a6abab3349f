import type { MissingTest } from './missingTests.ts'
import type { NoteWords } from './noteWords.ts'

/** Why a test was not collected, in the same words for the note and the bundle. */
export function missingText({ why, lost, befell }: MissingTest, words: NoteWords): string {
  if (lost) return words.say('missing', 'tubeLost', { how: words.word('swap', lost) })
  if (befell) return words.say('missing', 'reaction', { what: words.template.exceptions[befell] })
  return words.word('missing', why)
}
