import type { DrawLog } from '../../protocol/entry.ts'
import { logFault, type LogFault } from '../fault.ts'

/** Entries that no order of doing things can leave behind, also not two pages that write into one draw. */
export function sequenceFault({ entries }: DrawLog): LogFault | undefined {
  let closed = false
  for (const { event, seq } of entries) {
    if (event.type === 'drawClosed') closed = true
    if (event.type === 'addendumMade' && !closed) return logFault('addendumEarly', seq)
    if (event.type !== 'entryUndone') continue
    if (event.seq >= seq || event.seq < 1) return logFault('undoneAhead', seq, { other: event.seq })
    if (entries[event.seq - 1]?.event.type === 'drawOpened') return logFault('openingUndone', seq)
  }
  return undefined
}
