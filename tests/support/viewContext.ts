import type { ViewContext } from '../../src/app/view/drawView.ts'
import phrases from '../../src/data/en/phrases.json' with { type: 'json' }
import prompts from '../../src/data/en/prompts.json' with { type: 'json' }
import { texts } from '../../src/data/en/texts.ts'
import words from '../../src/data/en/words.json' with { type: 'json' }

/** The shipped words, with nobody listening and tests named by their codes. */
export const viewContext: ViewContext = {
  words,
  prompts,
  phrases,
  testName: (code) => code,
  planTexts: texts.plan,
  listening: { state: { kind: 'off' }, level: 0 },
}
