import type { StripTexts } from '../../core/record/stripTexts.ts'

/** The words of drawn pictures, `pictures.json` of a language. */
export interface PictureTexts {
  readonly strip: StripTexts
}
