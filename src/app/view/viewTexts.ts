import type { PhraseBook } from '../site/phraseBook.ts'
import type { Texts } from '../site/texts.ts'
import type { Prompts, Words } from '../site/words.ts'

/** What the draw screen is worded with. */
export interface ViewTexts {
  readonly words: Words
  readonly prompts: Prompts
  readonly phrases: PhraseBook
  readonly testName: (code: string) => string
  /** The same in as few letters as there are for it. */
  readonly shortTestName: (code: string) => string
  readonly texts: Pick<Texts, 'draw' | 'plan' | 'pictures'>
}
