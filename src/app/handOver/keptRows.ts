import type { HandOverRow } from '../../core/handOver/handOverRow.ts'
import type { HandOverStore } from '../../ports/handOverStore.ts'
import type { HandOverJob } from './handOverJob.ts'

const TRIES = 3

type RowChange = Pick<HandOverRow, 'state'> & Partial<Pick<HandOverRow, 'by'>>

/**
 * Changes rows as they stand now; one that another page changes at this moment is read again. Rejects as the store
 * does.
 */
export async function changeRows(
  store: HandOverStore,
  which: (row: HandOverRow) => boolean,
  to: RowChange,
  now_ms: () => number,
): Promise<void> {
  for (let tries = 0; tries < TRIES; tries++) {
    let isDone = true
    for (const { row, revision } of await store.rows()) {
      if (!which(row)) continue
      const { refusal: _refusal, by: _by, ...rest } = row
      isDone = (await store.swap(revision, { ...rest, ...to, since_ms: now_ms() })) && isDone
    }
    if (isDone) return
  }
}

/**
 * Notes of what stands here already, when it is switched on for the first time, that it does not go by itself. Rejects
 * as the store does.
 */
export async function noteEarlier(
  store: HandOverStore,
  jobs: () => Promise<readonly HandOverJob[]>,
  now_ms: () => number,
): Promise<void> {
  if ((await store.rows()).length > 0) return
  for (const { key, kind, about, mark } of await jobs()) {
    await store.swap(0, { key, kind, about, mark, hash: '', state: 'earlier', since_ms: now_ms() })
  }
}
