/**
 * Whether the screen stays lit. `asked`: on its way, or the page is out of sight. `refused`: asked for and not given,
 * or taken away and not given back, for example to save a low battery; it is asked for again. `unavailable`: this
 * browser has no way to ask.
 */
export type WakeState = 'off' | 'asked' | 'held' | 'refused' | 'unavailable'

/** Keeps the screen lit while somebody works with their hands. Nothing here throws or rejects. */
export interface ScreenWake {
  /** From now on until `release`, also after the page was out of sight, which ends every such lock. */
  hold(): void
  release(): void
  /** Called whenever the state becomes another one; returns how to stop that. */
  onState(observer: (state: WakeState) => void): () => void
}
