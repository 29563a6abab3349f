export const CHIMES = [
  'nearlyUp',
  'timeUp',
  'tubeFull',
  'mixNow',
  'heard',
  'notUnderstood',
  'severe',
] as const
export type Chime = (typeof CHIMES)[number]

/** Plays chimes and spoken prompts. Nothing here rejects: a sound that cannot play is reported through `onTrouble`. */
export interface Sound {
  chime(name: Chime): void
  /** Speaks the recorded prompt with that key, ending any prompt still playing. */
  speak(promptKey: string): void
  hush(): void
  setVolume(volume: number): void
  setSilent(silent: boolean): void
  /** Chooses among the recorded voices; one that is not there is reported through `onTrouble`. */
  setVoice?(voice: string): void
  /** Called with true when a prompt begins and false when it has ended, for the recognizer's gate. */
  onSpeaking(observer: (speaking: boolean) => void): () => void
  onTrouble(observer: (message: string) => void): () => void
}
