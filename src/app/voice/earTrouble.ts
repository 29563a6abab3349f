import { fillText } from '../../core/basics/fillText.ts'
import type { EarState } from '../../ports/earpiece.ts'
import type { Settings } from '../site/settings.ts'
import type { EarTexts, LostEar, TroubleText } from '../site/voiceTexts.ts'

type EarSettings = Pick<Settings, 'earId' | 'earName' | 'speakWithoutEar' | 'tonesOnly'>

/** No word may be heard: tones were asked for, or the ear that words are for is not there. */
export function isQuiet(
  { earId, speakWithoutEar, tonesOnly }: EarSettings,
  state: EarState,
): boolean {
  if (tonesOnly) return true
  if (earId === '' || state === 'there') return false
  return state === 'finding' || !speakWithoutEar
}

/** A voice of the browser cannot be sent to an ear, so it speaks only where no ear was chosen, and sound is on. */
export const mayRead = ({
  earId,
  tonesOnly,
  silent,
}: Pick<Settings, 'earId' | 'tonesOnly' | 'silent'>): boolean =>
  !tonesOnly && !silent && earId === ''

/** What a person has to know of the ear, for as long as it lasts. */
export function earTrouble(
  settings: EarSettings,
  state: EarState,
  texts: EarTexts,
): TroubleText | undefined {
  if (settings.earId === '' || !isLost(state)) return undefined
  const name = settings.earName || texts.unnamed
  const heard = isQuiet(settings, state) ? 'quiet' : 'spoken'
  return { what: fillText(texts.what[state], { name }), advice: texts.advice[heard] }
}

const isLost = (state: EarState): state is LostEar =>
  state === 'gone' || state === 'refused' || state === 'unable'
