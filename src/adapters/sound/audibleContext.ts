import { Howler } from 'howler'
import type { Clock } from '../../ports/clock.ts'

/** Sounds are known to be held back after this long; a context that may run does so much sooner. */
const HELD_BACK_ms = 500

/**
 * Runs something as soon as the browser lets sound be heard: at once, or after the first touch or key.
 * Started any earlier, howler would keep every sound asked for meanwhile and play them all together then.
 * @param onHeldBack called with true when sound is held back, and with false when it is free again
 * @param onClosed the context is closed for good: nothing is heard until another one has taken its place
 */
export function createAudibleContext(
  clock: Clock,
  onHeldBack: (heldBack: boolean) => void,
  onClosed: () => void,
): (run: () => void) => void {
  let cancelWarning: (() => void) | undefined
  let watched: AudioContext | undefined

  function free(): void {
    cancelWarning?.()
    cancelWarning = undefined
    onHeldBack(false)
  }

  async function resume(context: AudioContext): Promise<void> {
    cancelWarning ??= clock.wakeAt(clock.read().mono_ms + HELD_BACK_ms, () => onHeldBack(true))
    await context.resume()
    free()
  }

  function replace(): void {
    watched = undefined
    onClosed()
    if (Howler.usingWebAudio && Howler.ctx) watch(Howler.ctx)
  }

  /** A call or another program may take the loudspeaker away in the middle of a draw. */
  function watch(context: AudioContext): void {
    if (watched === context) return
    watched = context
    context.addEventListener('statechange', () => {
      if (watched !== context) return
      if (context.state === 'running') free()
      else if (context.state === 'closed') replace()
      else void resume(context).catch(() => onHeldBack(true))
    })
  }

  return (run) => {
    // Without Web Audio howler plays through audio elements, which report being held back themselves.
    const context = Howler.usingWebAudio ? (Howler.ctx as AudioContext | null) : null
    if (!context) return run()
    watch(context)
    if (context.state === 'running') return run()
    if (context.state === 'closed') replace()
    resume(Howler.ctx).then(run, () => onHeldBack(true))
  }
}
