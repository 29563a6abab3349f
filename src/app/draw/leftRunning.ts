import { chimeOf } from '../../core/protocol/clockTable.ts'
import { clockId, cueKey, writeCue } from '../../core/protocol/cueId.ts'
import { dueCuesOf, shown_ms, type RunningClocks } from '../../core/protocol/dueCues.ts'
import type { Clock } from '../../ports/clock.ts'
import type { DrawLock } from '../../ports/drawLock.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { RunningRecord, RunningStore } from '../../ports/runningStore.ts'
import type { Sound } from '../../ports/sound.ts'
import { clockView, type ClockWords } from '../view/clockViews.ts'
import type { ClockView } from '../view/drawViewTypes.ts'
import { BEAT_ms } from './heartbeat.ts'

/** After this an alarm that nobody answers only shows: the draw was left, and the next patient sits here. */
const ALARM_ms = 30 * 60_000

/** A draw that runs on no page, by its clocks alone: nothing here names anybody. */
export interface LeftDraw {
  readonly drawId: string
  readonly clocks: readonly ClockView[]
}

export interface LeftRunningDeps extends ClockWords {
  readonly clock: Clock
  readonly sound: Pick<Sound, 'chime'>
  readonly runningStore: RunningStore
  readonly drawLock: DrawLock
  readonly onView: (left: readonly LeftDraw[]) => void
}

/**
 * Shows and sounds the clocks of draws that were running when their page was lost, from the moment the next page
 * begins: before anybody goes on with the draw, and before a PIN is typed.
 */
export interface LeftRunning {
  start(): Promise<void>
  /** The page is seen or runs again: looks at the clocks at once. */
  lookNow(): void
  /** Somebody goes on with that draw here. */
  leave(drawId: string): void
}

interface Left {
  readonly drawId: string
  readonly running: RunningClocks
}

export function createLeftRunning(deps: LeftRunningDeps): LeftRunning {
  const { clock, sound } = deps
  let left: readonly Left[] = []
  let cancel: (() => void) | undefined

  /** Calls what is due and answers the draw with those cues given. */
  function call({ drawId, running }: Left): Left {
    const now = clock.read()
    const due = dueCuesOf(running, now)
    for (const { cue } of due) {
      const chime = chimeOf(cue.kind, cue.cue)
      const of = running.clocks.find((each) => clockId(each) === clockId(cue))
      const over_ms = of ? shown_ms(running, of, now) - of.length_ms : 0
      // Where nobody knows how long it was, it may be now.
      const isLong = Number.isFinite(over_ms) && over_ms >= ALARM_ms
      if (chime && !isLong) sound.chime(chime)
    }
    const given = due.map(({ cue }) => cueKey(writeCue(cue)))
    return { drawId, running: { ...running, cues: [...running.cues, ...given] } }
  }

  const viewOf = ({ drawId, running }: Left): LeftDraw => {
    const now = clock.read()
    const clocks = running.clocks.map((each) => clockView(each, shown_ms(running, each, now), deps))
    return { drawId, clocks }
  }

  function beat(): void {
    left = left.map(call)
    deps.onView(left.map(viewOf))
    cancel = left.length > 0 ? wakeIn(clock, BEAT_ms, beat) : undefined
  }

  /** Only draws that no other page runs: that one calls its own. */
  async function isLeft({ drawId }: RunningRecord): Promise<boolean> {
    const held = await deps.drawLock.hold(drawId, () => undefined)
    held?.release()
    return held !== undefined
  }

  return {
    start: async () => {
      const records = await deps.runningStore.list().catch(() => [])
      const found: Left[] = []
      for (const record of records) {
        if (record.clocks.length === 0 || !(await isLeft(record))) continue
        const { drawId, clocks, last, given } = record
        found.push({ drawId, running: { clocks, last: { at: last }, cues: given } })
      }
      left = found
      cancel?.()
      if (left.length > 0) beat()
    },
    lookNow: () => {
      cancel?.()
      if (left.length > 0) beat()
    },
    leave: (drawId) => {
      left = left.filter((each) => each.drawId !== drawId)
      deps.onView(left.map(viewOf))
    },
  }
}
