import type { DrawLog } from '../../core/protocol/entry.ts'
import { replay } from '../../core/protocol/evolve.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { Clock } from '../../ports/clock.ts'
import { drawView } from '../view/drawView.ts'
import type { ViewTexts } from '../view/viewTexts.ts'
import type { DrawView, ElsewhereTexts } from '../view/drawViewTypes.ts'
import { BEAT_ms } from './heartbeat.ts'

const NOT_LISTENING = { state: { kind: 'off' }, level: 0 } as const

/** How often the log is read again, so that what the other page records is seen here. */
const READ_ms = 1000

export interface OnlookerDeps extends ViewTexts {
  readonly clock: Clock
  readonly logs: { load(drawId: string): Promise<DrawLog | undefined> }
  readonly elsewhere: ElsewhereTexts
  readonly onView: (view: DrawView) => void
}

export interface Onlooker {
  /** The log as it was read last. */
  log(): DrawLog
  stop(): void
}

/** Shows a draw that another page writes: its step and clocks, without anything that could be confirmed, and silent. */
export function createOnlooker(deps: OnlookerDeps, first: DrawLog): Onlooker {
  const { clock, logs, elsewhere, onView, ...texts } = deps
  let log = first
  let state = replay(log.entries)
  let isStopped = false
  let cancelBeat: (() => void) | undefined
  let cancelRead: (() => void) | undefined

  const beat = (): void => {
    const view = drawView(state, clock.read(), texts, { listening: NOT_LISTENING })
    const shown = { ...view, choices: [], always: [], happened: [], labels: [] }
    // Of a draw that is over nothing can be taken over.
    onView(view.closed ? shown : { ...shown, elsewhere })
    cancelBeat = wakeIn(clock, BEAT_ms, beat)
  }
  const read = async (): Promise<void> => {
    const now = await logs.load(log.drawId).catch(() => undefined)
    if (isStopped) return
    if (now) {
      log = now
      state = replay(log.entries)
    }
    cancelRead = wakeIn(clock, READ_ms, () => void read())
  }
  beat()
  cancelRead = wakeIn(clock, READ_ms, () => void read())

  return {
    log: () => log,
    stop: () => {
      isStopped = true
      cancelBeat?.()
      cancelRead?.()
    },
  }
}
