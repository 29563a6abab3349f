import type { LogEntry } from '../../core/protocol/entry.ts'
import type { StoredDraw } from '../../ports/logStore.ts'

/** What the list of draws shows, brought up to date with entries just added. */
export function storedDraw(
  drawId: string,
  known: StoredDraw | undefined,
  added: readonly LogEntry[],
): StoredDraw {
  const opened = added.find((entry) => entry.event.type === 'drawOpened')
  const event = opened?.event.type === 'drawOpened' ? opened.event : undefined
  return {
    drawId,
    opened_ms: known?.opened_ms ?? opened?.at.at_ms ?? 0,
    closed: (known?.closed ?? false) || added.some(({ event: e }) => e.type === 'drawClosed'),
    patientName: known?.patientName ?? event?.patient.fullName ?? '',
    invented: known?.invented ?? event?.invented ?? false,
  }
}

/** Newest first. */
export const byOpening = (a: StoredDraw, b: StoredDraw): number => b.opened_ms - a.opened_ms
