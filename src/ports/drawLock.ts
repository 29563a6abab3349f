/** That this page, and no other, writes a draw. */
export interface HeldDraw {
  release(): void
}

/** Keeps a draw to one page. None of it rejects: where the browser knows no locks, every page may hold every draw. */
export interface DrawLock {
  /**
   * Holds a draw for this page.
   * @param onLost called once, when another page takes the draw from this one
   * @returns `undefined` while another page holds it
   */
  hold(drawId: string, onLost: () => void): Promise<HeldDraw | undefined>
  /** Takes the draw from whichever page holds it. */
  take(drawId: string, onLost: () => void): Promise<HeldDraw>
}
