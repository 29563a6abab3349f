import type english from '../../data/en/figures.json'
import type { TextsOf } from './screenTexts.ts'

/** `figures.json` of a language: how well a site draws. The English file says which texts there are. */
export type FigureTexts = TextsOf<typeof english>
