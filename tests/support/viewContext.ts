import type { ViewContext } from '../../src/app/drawView.ts'
import phrases from '../../src/data/phrases.en.json' with { type: 'json' }
import prompts from '../../src/data/prompts.en.json' with { type: 'json' }
import words from '../../src/data/words.en.json' with { type: 'json' }

/** The shipped words, with nobody listening and tests named by their codes. */
export const viewContext: ViewContext = {
  words,
  prompts,
  phrases,
  testName: (code) => code,
  listening: { state: { kind: 'off' }, level: 0 },
}
