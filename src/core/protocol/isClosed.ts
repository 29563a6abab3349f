import type { DrawLog } from './entry.ts'

/** Whether the draw of a log was closed: from then on it takes only what comes later, and addenda. */
export function isClosed({ entries }: DrawLog): boolean {
  return entries.some(({ event }) => event.type === 'drawClosed')
}
