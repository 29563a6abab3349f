import type { DrawLog } from '../../core/protocol/entry.ts'
import { replay } from '../../core/protocol/evolve.ts'
import type { Clock } from '../../ports/clock.ts'
import { wakeIn } from '../../ports/patience.ts'
import { drawView } from '../view/drawView.ts'
import type { ViewTexts } from '../view/viewTexts.ts'
import type { CoachView, DrawView } from '../view/drawViewTypes.ts'
import { BEAT_ms } from './heartbeat.ts'

const NOT_LISTENING = { state: { kind: 'off' }, level: 0 } as const

export interface ClosedDrawDeps extends ViewTexts {
  readonly clock: Clock
  readonly onView: (view: DrawView) => void
  readonly coach?: CoachView | undefined
}

export interface ClosedDraw {
  readonly drawId: string
  /** Something was added to the record. */
  update(log: DrawLog): void
  stop(): void
}

/**
 * Shows a draw that is closed: its clocks go on, and nothing else does. It hears nothing and writes nothing; what comes
 * later is added to its record by touch.
 */
export function createClosedDraw(deps: ClosedDrawDeps, log: DrawLog): ClosedDraw {
  const { clock, onView, coach } = deps
  let state = replay(log.entries)
  let cancelBeat: (() => void) | undefined

  const show = (): void => {
    const view = drawView(state, clock.read(), deps, { listening: NOT_LISTENING, coach })
    onView({ ...view, choices: [], always: [], happened: [], labels: [] })
  }
  const beat = (): void => {
    show()
    cancelBeat = wakeIn(clock, BEAT_ms, beat)
  }
  beat()

  return {
    drawId: log.drawId,
    update(next) {
      state = replay(next.entries)
      show()
    },
    stop: () => cancelBeat?.(),
  }
}
