import type { PracticeTexts } from '../app/site/practiceTexts.ts'
import type { Texts } from '../app/site/texts.ts'
import type { Prompts, Words } from '../app/site/words.ts'
import type { Language } from '../core/basics/language.ts'
import englishPrompts from './en/prompts.json' with { type: 'json' }
import { texts as english } from './en/texts.ts'
import englishWords from './en/words.json' with { type: 'json' }
import spanishPractice from './es/practice.json' with { type: 'json' }
import spanishPrompts from './es/prompts.json' with { type: 'json' }
import { texts as spanish } from './es/texts.ts'
import spanishWords from './es/words.json' with { type: 'json' }

/** Everything of a language that the app shows or says. Phrases that it listens for are English: no other is heard. */
export interface LanguageFiles {
  readonly texts: Texts
  readonly words: Words
  readonly prompts: Prompts
  /** The practice scripts; in the language that they are written in, none. */
  readonly practice?: PracticeTexts
}

/** A new language: a folder beside `en` with these files, its name in `core/basics/language.ts`, and a row here. */
export const LANGUAGE_FILES: Readonly<Record<Language, LanguageFiles>> = {
  en: { texts: english, words: englishWords, prompts: englishPrompts },
  es: { texts: spanish, words: spanishWords, prompts: spanishPrompts, practice: spanishPractice },
}

/** What the patient gets, in each language: it need not be that of the screens. */
export const LEAFLETS = {
  en: english.language.leaflet,
  es: spanish.language.leaflet,
} satisfies Readonly<Record<Language, unknown>>
