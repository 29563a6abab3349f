export const CHIMES = [
  'nearlyUp',
  'timeUp',
  'tubeFull',
  'mixNow',
  'heard',
  'earsOpen',
  'notUnderstood',
  'severe',
  'next',
  'asked',
  'look',
  'handle',
  'told',
] as const
export type Chime = (typeof CHIMES)[number]

/** What keeps sounds from being heard, gravest first: the first two also silence the alarms. */
export const SOUND_TROUBLES = ['heldBack', 'chimesMissing', 'promptsMissing'] as const
export type SoundTroubleCode = (typeof SOUND_TROUBLES)[number]

export interface SoundTrouble {
  readonly code: SoundTroubleCode
  /** For whoever looks for the cause: which file. */
  readonly detail?: string
}

/** How a test of the alarm went. That it was played does not mean that somebody heard it. */
export type SoundTest = 'played' | 'silent' | SoundTroubleCode

/** Plays chimes and spoken prompts. Nothing here rejects: sounds that cannot play are reported through `onTrouble`. */
export interface Sound {
  chime(name: Chime): void
  /** Speaks the recorded prompt with that key, ending any prompt still playing. */
  speak(promptKey: string): void
  hush(): void
  setVolume(volume: number): void
  setSilent(silent: boolean): void
  /** Chooses among the recorded voices; one that is not there is reported through `onTrouble`. */
  setVoice?(voice: string): void
  /** Sounds a chime, the alarm of a time that is up unless named, so that somebody can hear whether it is heard. */
  test(name?: Chime): Promise<SoundTest>
  /** Called with true when a prompt begins and false when it has ended, for the recognizer's gate. */
  onSpeaking(observer: (speaking: boolean) => void): () => void
  /** Called with the gravest trouble whenever it becomes another one, and with `undefined` when all is well again. */
  onTrouble(observer: (trouble: SoundTrouble | undefined) => void): () => void
}
