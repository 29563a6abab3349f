/** The other pages that this browser has of the app. */
export interface OtherPages {
  /** Tells them that something has changed that each page reads at its start. */
  tell(): void
  /** Calls back whenever another page tells; one that was frozen meanwhile may never hear of it. */
  onTold(observer: () => void): void
}
