import { isToDraw, type Series } from '../../core/record/seriesRecord.ts'
import { CLOCK_STEP_ms } from '../../core/time/course.ts'
import { clockStep_ms } from '../../core/time/stamp.ts'
import type { Clock } from '../../ports/clock.ts'
import type { DrawingHere } from '../draw/runningDraw.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { Sound } from '../../ports/sound.ts'

/** Minutes are shown: this is soon enough, and costs a tablet nothing. */
const BEAT_ms = 2000
/** What was due longer ago is shown and no longer called out. */
const CALLED_ms = 30 * 60_000

export interface SeriesWatchDeps {
  readonly clock: Clock
  readonly sound: Pick<Sound, 'chime' | 'speak'>
  /** The draw that runs here. Over a needle, a tube or a band nothing else may call. */
  readonly drawing: () => DrawingHere | undefined
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
  /** Of practice: never called where a sample of a patient is waited for or drawn. */
  readonly invented: boolean
  readonly due_ms: number
  /** Its own draw, where that is begun and has no specimen yet. */
  readonly openIn?: string
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
    const drawing = deps.drawing()
    const isOfPatients = drawing?.invented === false || dues.some(({ invented }) => !invented)
    // Its own draw tells of it only here, and only as long as it is not drawn.
    const waited = dues.filter(
      ({ openIn, invented }) =>
        !(invented && isOfPatients) &&
        (openIn === undefined || (drawing?.drawId === openIn && drawing.hasBlood === false)),
    )
    const due = waited.filter(({ key, due_ms }) => due_ms <= now.wall_ms && !called.has(key))
    // What comes due over a needle is called when that is out.
    if (due.length > 0 && (drawing?.isSafe ?? true)) {
      due.forEach(({ key }) => called.add(key))
      if (due.some(({ due_ms }) => now.wall_ms - due_ms < CALLED_ms)) {
        // Beside a patient the low chime: the alarm is for what happens to them.
        sound.chime(drawing ? 'nearlyUp' : 'timeUp')
        sound.speak('series.due')
      }
    }
    deps.onBeat(
      now.wall_ms,
      waited.filter(({ invented }) => !invented).map(({ due_ms }) => due_ms),
    )
    cancel = waiting ? wakeIn(clock, BEAT_ms, beat) : undefined
  }

  return {
    watch(series) {
      dues = series.flatMap(({ id, opened, sittings }) =>
        sittings.flatMap(({ key, state, due_ms, drawId, drawn_ms }): readonly Due[] => {
          if (due_ms === undefined) return []
          const { invented } = opened
          const due = { key: `${id} ${key} ${due_ms}`, due_ms, invented }
          if (isToDraw(state)) return [due]
          const isOpen = state === 'open' && drawn_ms === undefined && drawId !== undefined
          return isOpen ? [{ ...due, openIn: drawId }] : []
        }),
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
