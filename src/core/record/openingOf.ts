import type { DrawLog } from '../protocol/entry.ts'
import type { DrawOpened } from '../protocol/events.ts'

/**
 * The opening of a draw's log: who, what for, and the first plan.
 * @throws RangeError when the log does not begin with the opening of a draw.
 */
export function openingOf(log: DrawLog): DrawOpened {
  const event = log.entries[0]?.event
  if (event?.type !== 'drawOpened') throw new RangeError('The log does not open a draw.')
  return event
}
