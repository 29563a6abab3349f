import { Howler } from 'howler'

/** A waiting sound is told of as trouble after this long; a context that may run does so much sooner. */
const HELD_BACK_ms = 500

/**
 * Runs something as soon as the browser lets sound be heard: at once, or after the first touch or key.
 * Started any earlier, howler would keep every sound asked for meanwhile and play them all together then.
 */
export function createAudibleContext(heldBack: () => void): (run: () => void) => void {
  let warning: ReturnType<typeof setTimeout> | undefined
  return (run) => {
    // Without Web Audio howler plays through audio elements, which report being held back themselves.
    const context = Howler.usingWebAudio ? (Howler.ctx as AudioContext | null) : null
    if (!context || context.state === 'running') return run()
    warning ??= setTimeout(heldBack, HELD_BACK_ms)
    context
      .resume()
      .then(() => {
        clearTimeout(warning)
        warning = undefined
        run()
      })
      .catch(heldBack)
  }
}
