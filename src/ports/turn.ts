/** Work that one page of this device does for all of them: of several tabs one sends. */
export interface Turn {
  /** Whether this page is the one. Where the browser knows no locks, every page is. */
  isOurs(): boolean
  /** Waits for it from now on; it comes by itself when the page that has it is closed. */
  ask(onOurs: () => void): void
}
