import { drawView } from '../../src/app/view/drawView.ts'
import type { ViewTexts } from '../../src/app/view/viewTexts.ts'
import type { DrawView } from '../../src/app/view/drawViewTypes.ts'
import phrases from '../../src/data/en/phrases.json' with { type: 'json' }
import type { DrawDriver } from './drawDriver.ts'
import { prompts, texts, words } from './language.ts'

/** The shipped words, with tests named by their codes. */
export const viewTexts: ViewTexts = {
  words,
  prompts,
  phrases,
  testName: (code) => code,
  shortTestName: (code) => code,
  texts,
}

/** The screen of a draw with nobody listening. */
export const viewOf = (draw: DrawDriver): DrawView =>
  drawView(draw.state(), draw.now(), viewTexts, { listening: { state: { kind: 'off' }, level: 0 } })
