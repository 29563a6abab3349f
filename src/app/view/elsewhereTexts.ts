import { fillText } from '../../core/basics/fillText.ts'
import type { ClinicTexts } from '../site/clinicTexts.ts'
import type { ElsewhereTexts } from './drawViewTypes.ts'

/** Of a draw at another chair: who has it, and what is asked before it is taken over from there. */
export function elsewhereTexts(
  { elsewhere }: Pick<ClinicTexts, 'elsewhere'>,
  says: 'running' | 'lost',
  device: string,
): ElsewhereTexts {
  const { takeOver, ask } = elsewhere
  return {
    text: fillText(elsewhere[says], { device }),
    takeOver,
    ask: { ...ask, question: fillText(ask.question, { device }) },
  }
}
