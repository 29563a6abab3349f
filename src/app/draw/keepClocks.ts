import { clocksOf } from '../../core/protocol/clocks.ts'
import { clockId } from '../../core/protocol/cueId.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import type { RunningStore } from '../../ports/runningStore.ts'

/**
 * Keeps the clocks of the draw that runs, so that a page which begins anew in the middle of it can show and sound them
 * at once. The log stays the only record: what fails here is only missed after a crash.
 */
export function createClockKeeper(store: RunningStore): (state: DrawState) => void {
  let kept = ''
  return (state) => {
    const { drawId } = state.opened
    const clocks = state.closed ? [] : clocksOf(state)
    const key = [drawId, state.cues.length, ...clocks.map(clockId)].join(' ')
    if (key === kept) return
    kept = key
    const record = { drawId, clocks, last: state.last.at, given: state.cues }
    const work = clocks.length > 0 ? store.put(record) : store.remove(drawId)
    work.catch(() => undefined)
  }
}
