import type { LogTexts } from '../../core/log/logTexts.ts'
import type { TextFaultTexts } from '../../core/text/textFaultSentence.ts'

/** The texts of one language, a file of its folder for each room of the app. */
export interface Texts {
  readonly log: LogTexts
  readonly text: TextFaultTexts
}
