import { createEmitter } from '../../core/basics/emitter.ts'
import type { Clock } from '../../ports/clock.ts'
import { wakeIn, within } from '../../ports/patience.ts'
import type { ScreenWake, WakeState } from '../../ports/screenWake.ts'

/** Refused while it is wanted, it is asked for again this often: a battery may be charging by then. */
export const ASK_AGAIN_ms = 10_000
/** A browser that has not answered by then counts as one that refuses. */
export const ANSWER_ms = 5000

export interface WakeLockDeps {
  readonly clock: Clock
  /** `navigator.wakeLock`; absent where the browser knows none, or the page is neither https nor localhost. */
  readonly wakeLock: Pick<WakeLock, 'request'> | undefined
  readonly page: Document
}

/** The browser's wake lock, where it has one; the library's types say that all have. */
export const wakeLockOf = (browser: Partial<Pick<Navigator, 'wakeLock'>>): WakeLock | undefined =>
  browser.wakeLock

/**
 * The Screen Wake Lock API (W3C). The browser lets go of a lock whenever the page is out of sight, so it is asked for
 * anew each time the page is seen, runs again after it was frozen, or comes out of the back/forward cache.
 */
export function createScreenWake({ clock, wakeLock, page }: WakeLockDeps): ScreenWake {
  const states = createEmitter<WakeState>()
  let state: WakeState = 'off'
  let wanted = false
  let held: WakeLockSentinel | undefined
  let isAsking = false
  /** Asked for once more while the browser was being asked. */
  let again = false
  let cancelAgain: (() => void) | undefined

  function become(next: WakeState): void {
    if (next === state) return
    state = next
    states.emit(next)
  }

  const isSeen = (): boolean => page.visibilityState === 'visible'

  async function ask(): Promise<void> {
    again ||= isAsking
    if (!wakeLock || !wanted || held || isAsking || !isSeen()) return
    isAsking = true
    again = false
    cancelAgain?.()
    try {
      const answer = wakeLock.request('screen')
      // What comes too late is of use all the same.
      void answer.then(take, () => undefined)
      await within(clock, ANSWER_ms, answer, () => new Error('The browser does not answer.'))
    } catch {
      // What the screen says is worked out from what is held.
    }
    isAsking = false
    if (again) void ask()
    else refuseUnlessHeld()
  }

  function refuseUnlessHeld(): void {
    if (!wanted || held || !isSeen()) return
    become('refused')
    cancelAgain?.()
    cancelAgain = wakeIn(clock, ASK_AGAIN_ms, () => void ask())
  }

  function take(lock: WakeLockSentinel): void {
    if (!wanted || held || lock.released) {
      void lock.release()
      return
    }
    held = lock
    const since_ms = clock.read().mono_ms
    lock.addEventListener('release', () => {
      if (held !== lock) return
      held = undefined
      // Taken away as soon as it is given: asking at once would go round and round.
      const isTaken = clock.read().mono_ms - since_ms < ASK_AGAIN_ms && isSeen()
      if (isTaken) refuseUnlessHeld()
      else {
        become('asked')
        void ask()
      }
    })
    become('held')
  }

  page.addEventListener('visibilitychange', () => void ask())
  page.addEventListener('resume', () => void ask())
  page.defaultView?.addEventListener('pageshow', () => void ask())

  return {
    hold() {
      if (wanted) return
      wanted = true
      become(wakeLock ? 'asked' : 'unavailable')
      void ask()
    },
    release() {
      if (!wanted) return
      wanted = false
      cancelAgain?.()
      const lock = held
      held = undefined
      void lock?.release()
      become('off')
    },
    onState: states.observe,
  }
}
