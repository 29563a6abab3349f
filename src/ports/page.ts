/** A text to keep, with the name and type it is kept under. */
export interface TextFile {
  readonly name: string
  readonly type: string
  readonly text: string
}

/** The page the app lives in, and what only it can do for a person. */
export interface Page {
  print(): void
  /** Resolves to whether the text is on the clipboard. */
  copyText(text: string): Promise<boolean>
  /** Offers a text as a file to keep. */
  saveText(file: TextFile): void
  /**
   * Reads a text that is served beside the page; rejects with an Error that says why not.
   * @param most_B of a longer one no more than the beginning is read, at least so many bytes
   */
  readText(path: string, most_B?: number): Promise<string>
  /**
   * Calls back whenever the page is seen again, runs again after the browser had frozen it, or the machine is back on
   * its network: what failed may work now, and time has passed.
   */
  onReturn(back: () => void): void
  /** Calls back whenever the page goes out of sight, is frozen or is left: it may never run again. */
  onLeave(leave: () => void): void
  /** Calls back whenever somebody uses the page: touches it, types, points. */
  onUse(use: () => void): void
  /** Asks the browser to keep what is stored; resolves to whether it promises, or `undefined` where it does not say. */
  askToKeep(): Promise<boolean | undefined>
  /** Has the browser ask before it closes the page, while the condition holds. */
  askBeforeLeaving(condition: () => boolean): void
  /** Address at which the records of this app are kept, where that is known and is not this one. Never rejects. */
  keptElsewhere(): Promise<string | undefined>
  /** Loads the app anew. */
  startAnew(): void
}
