import { isToDraw, type Series } from '../../core/record/seriesRecord.ts'
import { CLOCK_STEP_ms } from '../../core/time/course.ts'
import { clockStep_ms } from '../../core/time/stamp.ts'
import type { Clock } from '../../ports/clock.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { Sound } from '../../ports/sound.ts'

/** Minutes are shown: this is soon enough, and costs a tablet nothing. */
const BEAT_ms = 2000
/** What was due longer ago is shown and no longer called out. */
const CALLED_ms = 30 * 60_000

export interface SeriesWatchDeps {
  readonly clock: Clock
  readonly sound: Pick<Sound, 'chime' | 'speak'>
  /** A draw runs here: nothing else may call. */
  readonly isDrawing: () => boolean
  readonly onBeat: (now_ms: number, dues_ms: readonly number[]) => void
  /** The clock was set while a sample was waited for. */
  readonly onClockStep: (by_ms: number) => void
}

/** Calls out when a sample of a series is due. It holds times and keys alone, so that it goes on while locked. */
export interface SeriesWatch {
  watch(series: readonly Series[]): void
  /** The page is seen or runs again. */
  lookNow(): void
}

interface Due {
  readonly key: string
  readonly due_ms: number
}

export function createSeriesWatch(deps: SeriesWatchDeps): SeriesWatch {
  const { clock, sound } = deps
  const called = new Set<string>()
  let dues: readonly Due[] = []
  let waiting = false
  let last = clock.read()
  let cancel: (() => void) | undefined

  function beat(): void {
    cancel?.()
    const now = clock.read()
    const step_ms = clockStep_ms(last, now)
    last = now
    if (waiting && Math.abs(step_ms) > CLOCK_STEP_ms) deps.onClockStep(step_ms)
    const due = dues.filter(({ key, due_ms }) => due_ms <= now.wall_ms && !called.has(key))
    // What comes due while somebody is being drawn is called when that draw is over.
    if (due.length > 0 && !deps.isDrawing()) {
      due.forEach(({ key }) => called.add(key))
      if (due.some(({ due_ms }) => now.wall_ms - due_ms < CALLED_ms)) {
        sound.chime('timeUp')
        sound.speak('series.due')
      }
    }
    deps.onBeat(
      now.wall_ms,
      dues.map(({ due_ms }) => due_ms),
    )
    cancel = waiting ? wakeIn(clock, BEAT_ms, beat) : undefined
  }

  return {
    watch(series) {
      dues = series.flatMap(({ id, sittings }) =>
        sittings.flatMap(({ key, state, due_ms }) =>
          due_ms !== undefined && isToDraw(state)
            ? [{ key: `${id} ${key} ${due_ms}`, due_ms }]
            : [],
        ),
      )
      if (!waiting) last = clock.read()
      waiting = series.length > 0
      beat()
    },
    lookNow: () => {
      if (waiting) beat()
    },
  }
}
