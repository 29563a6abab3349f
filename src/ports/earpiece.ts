/** Where sound can go to, as the browser names it on this device. */
export interface OutputDevice {
  readonly id: string
  /** The browser's name for it; may be empty while it gives none. */
  readonly name: string
}

/** How somebody may choose: from a list, in a question of the browser's own, or not at all. */
export type ChoosingEar = 'list' | 'asked' | 'none'

/**
 * How it stands with the ear. `loudspeaker`: none was chosen. `finding`: not known at this moment. `gone`: it is not
 * among the device's outputs. `refused`: the browser does not send sound there. `unable`: it cannot send any anywhere.
 */
export const EAR_STATES = ['loudspeaker', 'finding', 'there', 'gone', 'refused', 'unable'] as const
export type EarState = (typeof EAR_STATES)[number]

export interface EarChoice {
  /** `undefined` for the device's own loudspeaker. */
  readonly device: OutputDevice | undefined
  /** While the ear is not there words may come from the loudspeaker. Without it nothing is spoken. */
  readonly speakWithout: boolean
}

/**
 * Sends what is heard to one ear. While the chosen device is not there no word leaves the loudspeaker, and tones do.
 * Nothing here rejects.
 */
export interface Earpiece {
  readonly choosing: ChoosingEar
  /** What can be chosen; empty where the browser does not tell. */
  list(): Promise<readonly OutputDevice[]>
  /** The browser's own question, from a touch of a person; `undefined` where nothing was chosen. */
  ask(): Promise<OutputDevice | undefined>
  use(choice: EarChoice): void
  state(): EarState
  onState(observer: (state: EarState) => void): () => void
}
