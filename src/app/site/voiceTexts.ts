import type { Text } from '../../core/basics/fillText.ts'
import type { PhraseFault } from '../../core/voice/checkPhrases.ts'
import type { MicReasonCode } from '../../core/voice/judgeMic.ts'
import type { EarState } from '../../ports/earpiece.ts'
import type { LevelChange } from '../../core/voice/usualLevels.ts'
import type { SoundTroubleCode } from '../../ports/sound.ts'
import type { SpeechTrouble } from '../../ports/speech.ts'

/** `voice.json` of a language: what a person is told about hearing. */
export interface VoiceTexts {
  readonly language: string
  /** What keeps the app from hearing, and what to do about it; touch and keys go on working through all of it. */
  readonly trouble: Readonly<Record<SpeechTrouble, TroubleText>>
  /** What is still heard while listening is paused, and `{phrase}` that ends the pause. */
  readonly paused: string
  /** What keeps sounds from being heard; everything they tell is on the screen as well. */
  readonly sound: Readonly<Record<SoundTroubleCode, TroubleText>>
  readonly soundTest: Readonly<Record<'played' | 'silent', string>>
  /** Why an ear that was chosen hears nothing, and what is heard instead. */
  readonly ear: EarTexts
  /** Phrases that patients say too: with the needle in they are answered only where they were said to us. */
  readonly askedByPatients: readonly string[]
  /** An act on `{phrase}` turned out to be a mistake, and something else was recorded since. */
  readonly takenBackTooLate: string
  /** Why a microphone check was not good, what is unlike this person's earlier ones, and that voice is off. */
  readonly micCheck: Readonly<Record<MicReasonCode | LevelChange['kind'] | 'off', Text>>
  readonly phraseFaults: Readonly<Record<PhraseFault['kind'], string>>
  readonly wordListMissing: string
}

export interface EarTexts {
  /** What is heard meanwhile: nothing spoken, or words from the loudspeaker. */
  readonly advice: Readonly<Record<'quiet' | 'spoken', string>>
  /** `{name}` of the output. */
  readonly what: Readonly<Record<LostEar, string>>
  /** In the place of a name that the browser does not tell. */
  readonly unnamed: string
  readonly played: string
  readonly loudspeaker: string
  readonly finding: string
}

/** States of an ear that a person has to know of. */
export type LostEar = Extract<EarState, 'gone' | 'refused' | 'unable'>

export interface TroubleText {
  readonly what: string
  readonly advice: string
}
