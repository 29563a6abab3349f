import type { BenchDue } from '../../core/bench/benchDues.ts'
import type { Clock } from '../../ports/clock.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { Sound } from '../../ports/sound.ts'
import type { DrawingHere } from '../draw/runningDraw.ts'

/** Minutes are shown: this is soon enough, and costs a tablet nothing. */
const BEAT_ms = 10_000
/** What was due longer ago is shown and no longer called out. */
const CALLED_ms = 30 * 60_000

export interface BenchWatchDeps {
  readonly clock: Clock
  readonly sound: Pick<Sound, 'chime' | 'speak'>
  readonly drawing: () => DrawingHere | undefined
  readonly onBeat: () => void
}

/** Calls out what is due on the bench. It holds times and keys alone, so that it goes on while locked. */
export interface BenchWatch {
  /** @param dues of specimens of patients, or of practice where there are none */
  watch(dues: readonly BenchDue[]): void
  lookNow(): void
}

/** In the order of weight: of several at once the first is said. */
const SAYS = ['over', 'near', 'spinDone', 'ready'] as const

export function createBenchWatch({ clock, sound, drawing, onBeat }: BenchWatchDeps): BenchWatch {
  const called = new Set<string>()
  let dues: readonly BenchDue[] = []
  let cancel: (() => void) | undefined

  function beat(): void {
    cancel?.()
    call()
    onBeat()
    cancel = dues.length > 0 ? wakeIn(clock, BEAT_ms, beat) : undefined
  }

  function call(): void {
    const now_ms = clock.read().wall_ms
    const here = drawing()
    // Nothing speaks over a needle, a band or a tube. What came due meanwhile is told once they are off.
    if (here && !here.isSafe) return
    const due = dues.filter(({ key, at_ms }) => at_ms <= now_ms && !called.has(key))
    // Beside a patient only what would be lost; of their own tubes the draw itself tells.
    const told = due.filter(
      ({ kind, drawId }) =>
        !here || (drawId !== here.drawId && (kind === 'near' || kind === 'over')),
    )
    told.forEach(({ key }) => called.add(key))
    const fresh = told.filter(({ at_ms }) => now_ms - at_ms < CALLED_ms)
    const kind = SAYS.find((each) => fresh.some((one) => one.kind === each))
    if (!kind) return
    sound.chime(here ? 'nearlyUp' : 'timeUp')
    sound.speak(`bench.${kind}`)
  }

  return {
    watch(next) {
      const wasIdle = dues.length === 0
      dues = next
      // What no longer counts may be told anew, should it come again.
      const keys = new Set(next.map(({ key }) => key))
      for (const key of called) if (!keys.has(key)) called.delete(key)
      if (wasIdle && next.length > 0) beat()
    },
    lookNow: beat,
  }
}
