/**
 * Reads words aloud that no recording can hold, such as names. Only by a voice that lives on this machine: nothing of
 * what is read leaves it. Nothing here throws or rejects.
 */
export interface Reader {
  /** There is such a voice now; browsers find theirs a moment after the page. */
  isThere(): boolean
  /** Reads once what was read before has ended; does nothing where there is no voice. */
  read(text: string): void
  stop(): void
  /** From 0 to 1, for what is read from now on. */
  setVolume?(volume: number): void
  /** Called with true when reading begins and false when it has ended, for the recognizer's gate. */
  onReading(observer: (reading: boolean) => void): () => void
}
