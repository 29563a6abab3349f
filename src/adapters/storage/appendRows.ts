import { defined } from '../../core/basics/defined.ts'
import { appendRest } from '../../core/log/appendRest.ts'
import { LOG_VERSION } from '../../core/log/checkLog.ts'
import type { LogEntry } from '../../core/protocol/entry.ts'
import { StorageError } from '../../ports/storageFault.ts'
import { settleNumber } from './drawNumbers.ts'
import { inTransaction } from './inTransaction.ts'
import type { EntryRow, RowCodec, TextRow } from './rows.ts'
import { entriesOf, type Database } from './schema.ts'
import { mustFitVault } from './vaultFits.ts'
import { drawRow, type OpenedRow } from './storedDraw.ts'

export interface AppendJob {
  readonly drawId: string
  readonly entries: readonly LogEntry[]
  readonly rows: ReadonlyMap<number, EntryRow>
  readonly opened: OpenedRow | undefined
  /** Of a draw that is brought in: then it must be new here. */
  readonly original: TextRow | undefined
}

/** Everything that has to be made before the transaction begins. */
export async function appendJob(
  codec: RowCodec,
  drawId: string,
  entries: readonly LogEntry[],
  text?: string,
): Promise<AppendJob> {
  const original = text === undefined ? undefined : await codec.writeText(drawId, text)
  const rows = new Map<number, EntryRow>()
  for (const entry of entries) rows.set(entry.seq, await codec.writeEntry(drawId, entry))
  const first = entries.find(({ event }) => event.type === 'drawOpened')
  if (first?.event.type !== 'drawOpened')
    return { drawId, entries, rows, opened: undefined, original }
  const { patient, invented, sitting, listed } = first.event
  const name = await codec.writeName(drawId, patient.fullName)
  return {
    drawId,
    entries,
    rows,
    original,
    opened: defined({
      ...name,
      invented,
      opened_ms: first.at.at_ms,
      series: sitting?.series,
      listed,
    }),
  }
}

/**
 * Looks at the end of the log and writes behind it in one transaction, so that two tabs cannot both do so. The first
 * entry also settles the draw's number, so that a number brought in from elsewhere is never given here.
 */
export async function appendRows(db: Database, job: AppendJob): Promise<void> {
  const { drawId, entries, rows, opened, original } = job
  const stores = ['entries', 'draws', 'numbers', 'originals', 'vault', 'running'] as const
  await inTransaction(db, stores, async (tx) => {
    const from = Math.max(0, (entries[0]?.seq ?? 1) - 1)
    const stored = await tx.objectStore('entries').getAll(entriesOf(drawId, from))
    const last = await tx.objectStore('entries').openCursor(entriesOf(drawId), 'prev')
    const end = stored.length > 0 ? stored : last ? [last.value] : []
    if (original !== undefined && end.length > 0) {
      throw new StorageError('alreadyHere', `Draw ${drawId} is already on this device.`)
    }
    const rest = appendRest(end, entries)
    if ('refused' in rest) throw new StorageError(rest.refused, rest.reason)
    await mustFitVault(tx.objectStore('vault'), [...rows.values()])
    const known = await tx.objectStore('draws').get(drawId)
    if (known && known.logVersion !== LOG_VERSION) {
      throw new StorageError('movedOn', `Draw ${drawId} is stored in another format.`)
    }
    for (const { seq } of rest.add) {
      const row = rows.get(seq)
      if (row) await tx.objectStore('entries').add(row, [drawId, seq])
    }
    await tx.objectStore('draws').put(drawRow(drawId, known ?? opened, rest.add), drawId)
    const isClosed = rest.add.some(({ event }) => event.type === 'drawClosed')
    if (isClosed) await tx.objectStore('running').delete(drawId)
    if (original !== undefined) await tx.objectStore('originals').add(original, drawId)
    if (opened) await settleNumber(tx.objectStore('numbers'), drawId)
  })
}
