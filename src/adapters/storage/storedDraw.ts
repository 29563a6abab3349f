import { LOG_VERSION } from '../../core/log/checkLog.ts'
import type { LogEntry } from '../../core/protocol/entry.ts'
import type { StoredDraw } from '../../ports/logStore.ts'
import type { NameRow } from './rows.ts'
import type { DrawRow } from './schema.ts'

/** What the opening tells for the list of draws. */
export interface OpenedRow extends NameRow {
  readonly opened_ms: number
  readonly invented: boolean
  readonly series?: string
  readonly listed?: readonly string[]
}

/** The row of a draw in the list, brought up to date with entries just added. */
export function drawRow(
  drawId: string,
  known: DrawRow | OpenedRow | undefined,
  added: readonly LogEntry[],
): DrawRow {
  const closed = known && 'closed' in known ? known.closed : false
  const had = known && 'entries' in known ? known.entries : undefined
  const entries = added.at(-1)?.seq ?? had
  return {
    opened_ms: 0,
    invented: false,
    ...known,
    ...(entries !== undefined && { entries }),
    drawId,
    closed: closed || added.some(({ event }) => event.type === 'drawClosed'),
    logVersion: LOG_VERSION,
  }
}

/** Newest first. */
export const byOpening = (a: StoredDraw, b: StoredDraw): number => b.opened_ms - a.opened_ms
