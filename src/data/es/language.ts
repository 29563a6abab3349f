import type { LanguageFiles } from '../../app/site/languages.ts'
import prompts from './prompts.json' with { type: 'json' }
import { texts } from './texts.ts'
import words from './words.json' with { type: 'json' }

/** Spanish, translated by us and not by a translator; in a file of its own, which is loaded where it is chosen. */
export const spanish: LanguageFiles = { texts, words, prompts }
