import { fillText } from '../../core/basics/fillText.ts'
import type { Earpiece, EarState } from '../../ports/earpiece.ts'
import type { Sound } from '../../ports/sound.ts'
import type { Settings } from '../site/settings.ts'
import type { TroubleText, VoiceTexts } from '../site/voiceTexts.ts'
import { earTrouble } from './earTrouble.ts'

export interface EarDeps {
  readonly earpiece: Earpiece
  readonly sound: Pick<Sound, 'test'>
  readonly texts: VoiceTexts
  readonly settings: () => Settings
  readonly onTrouble: (trouble: TroubleText | undefined) => void
}

/** The ear that this device speaks to, as the settings have it. */
export interface Ear {
  /** The settings have changed. */
  apply(): void
  /** Sounds a tone where prompts go and answers how it went, in words. */
  test(): Promise<string>
}

export function createEar({ earpiece, sound, texts, settings, onTrouble }: EarDeps): Ear {
  const tell = (state: EarState): void => onTrouble(earTrouble(settings(), state, texts.ear))
  earpiece.onState(tell)
  return {
    apply() {
      const { earId, earName, speakWithoutEar } = settings()
      const device = earId === '' ? undefined : { id: earId, name: earName }
      earpiece.use({ device, speakWithout: speakWithoutEar })
      tell(earpiece.state())
    },
    async test() {
      const { earName } = settings()
      const trouble = earTrouble(settings(), earpiece.state(), texts.ear)
      if (trouble) return trouble.what
      if (earpiece.state() === 'finding') return texts.ear.finding
      const outcome = await sound.test('told')
      if (outcome === 'silent') return texts.soundTest.silent
      if (outcome !== 'played') return texts.sound[outcome].what
      if (earpiece.state() !== 'there') return texts.ear.loudspeaker
      return fillText(texts.ear.played, { name: earName || texts.ear.unnamed })
    },
  }
}
