/**
 * Looks after something, never twice at once: whoever asks while it looks makes it look once more behind that. A look
 * that fails is over; the next one must do.
 * @param isOn while it says no, nothing is looked after and nothing more is begun
 * @returns asks for a look
 */
export function createLooks(look: () => Promise<void>, isOn = (): boolean => true): () => void {
  let isAsked = false
  let isLooking = false

  async function lookOn(): Promise<void> {
    isLooking = true
    while (isAsked && isOn()) {
      isAsked = false
      await look().catch(() => undefined)
    }
    isLooking = false
  }

  return () => {
    if (!isOn()) return
    isAsked = true
    if (!isLooking) void lookOn()
  }
}
