import { defined } from '../../core/basics/defined.ts'
import { fillText } from '../../core/basics/fillText.ts'
import type { MicReason, MicVerdict } from '../../core/voice/judgeMic.ts'
import type { LevelChange } from '../../core/voice/usualLevels.ts'
import type { VoiceTexts } from '../site/voiceTexts.ts'
import { askedNow, type MicCheckState, type MicTrouble } from './micCheckState.ts'

/** The check as the screen shows it. */
export type MicCheckView =
  | { readonly phase: 'ready' }
  | { readonly phase: 'opening' }
  | { readonly phase: 'room'; readonly level: number }
  | {
      readonly phase: 'asking'
      readonly phrase: string
      readonly number: number
      readonly of: number
      readonly level: number
      /** What was heard last, right or not. */
      readonly transcript?: string
    }
  | {
      readonly phase: 'done'
      readonly kind: 'check' | 'learn'
      readonly verdict: {
        readonly verdict: MicVerdict['verdict']
        readonly reasons: readonly string[]
      }
      readonly right: number
      readonly asked: number
    }

export function micCheckView(state: MicCheckState, texts: VoiceTexts): MicCheckView {
  switch (state.phase) {
    case 'ready':
    case 'opening':
      return { phase: state.phase }
    case 'room':
      return { phase: 'room', level: state.level }
    case 'asking': {
      const { index, level, transcript } = state
      const phrase = askedNow(state)?.phrase ?? ''
      const of = state.plan.asked.length
      return defined({ phase: state.phase, phrase, number: index + 1, of, level, transcript })
    }
    case 'done': {
      const { verdict, reasons } = state.verdict
      const worded = [
        ...reasons.map((reason) => micReasonText(reason, texts)),
        ...state.changes.map((change) => changeText(change, texts)),
      ]
      const { right, plan } = state
      const asked = plan.asked.length
      return { phase: 'done', kind: plan.kind, verdict: { verdict, reasons: worded }, right, asked }
    }
  }
}

const changeText = ({ kind, by_dB }: LevelChange, { micCheck }: VoiceTexts): string =>
  fillText(micCheck[kind], { by_dB })

/** A reason as a sentence. */
export function micReasonText(reason: MicReason<MicTrouble>, texts: VoiceTexts): string {
  const { micCheck, language } = texts
  if (reason.code !== 'trouble')
    return fillText(micCheck[reason.code], defined({ n: reason.n }), language)
  if (reason.trouble === 'off') return fillText(micCheck.off)
  return texts.trouble[reason.trouble].what
}
