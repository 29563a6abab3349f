/**
 * `waiting`: a newer version of the app is here, and every page still runs the old one. `taken`: another page has
 * taken it, and this page should begin anew.
 */
export type VersionState = 'current' | 'waiting' | 'taken'

/** `busy`: another page is in the middle of a draw, or has something that is not saved. */
export type TakeOutcome = 'taken' | 'busy' | 'failed'

/** Versions of the app on this device. Nothing here throws or rejects. */
export interface Versions {
  /** Called whenever the state becomes another one; returns how to stop that. */
  onState(observer: (state: VersionState) => void): () => void
  /** While it is busy no page takes a newer version, and none is looked for. */
  setBusy(busy: boolean): void
  /** Takes the newer version; with `taken` this page has to begin anew. */
  take(): Promise<TakeOutcome>
}
