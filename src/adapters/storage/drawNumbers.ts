import { countOf, isCount, readDrawId } from '../../core/protocol/drawId.ts'
import { CLAIM_ms } from '../../ports/logStore.ts'
import { inTransaction } from './inTransaction.ts'
import { numberKey, type Database } from './schema.ts'

/** Rows of the last number given by `prefix-day`. */
interface NumberRows {
  get(key: string): Promise<number | undefined>
  put(count: number, key: string): Promise<unknown>
}

/** The next number of that day, given in a transaction of its own: what is given is never given again. */
export function reserveNumber(db: Database, prefix: string, day: string): Promise<number> {
  return inTransaction(db, ['numbers', 'draws'], async (tx) => {
    const key = numberKey(prefix, day)
    const last = await tx.objectStore('numbers').get(key)
    const start = `${key}-`
    const ids = isCount(last)
      ? []
      : await tx.objectStore('draws').getAllKeys(IDBKeyRange.bound(start, `${start}\uffff`))
    const count = nextCount(last, ids)
    await tx.objectStore('numbers').put(count, key)
    return count
  })
}

/** Puts the day's last number no lower than that of a draw which was just written. */
export async function settleNumber(numbers: NumberRows, drawId: string): Promise<void> {
  const id = readDrawId(drawId)
  const count = countOf(drawId)
  if (!id || count === undefined) return
  const key = numberKey(id.prefix, id.day)
  const last = await numbers.get(key)
  if (!isCount(last) || last < count) await numbers.put(count, key)
}

/**
 * One more than the last number. Where that is missing or is no number (a damaged record must not stop the day) the
 * ids of the stored draws tell how far the count had come.
 */
export function nextCount(last: unknown, drawIds: readonly string[]): number {
  const counts = drawIds.map(countOf).filter((count) => count !== undefined)
  const highest = isCount(last) ? last : Math.max(0, ...counts)
  return highest + 1
}

/** Looks at a claim and writes it in one transaction; see `LogStore.claim`. */
export function claimRow(db: Database, key: string, now_ms: number): Promise<boolean> {
  return inTransaction(db, ['numbers'], async (tx) => {
    const rows = tx.objectStore('numbers')
    const isOurs = isFree(await rows.get(claimKey(key)), now_ms)
    if (isOurs) await rows.put(now_ms, claimKey(key))
    return isOurs
  })
}

/** No number of a day is kept under such a key. */
export const claimKey = (key: string): string => `claim ${key}`

/** A claim from a time that is still to come is of a clock that was set back: it holds nobody up. */
export const isFree = (claimed: unknown, now_ms: number): boolean =>
  typeof claimed !== 'number' || now_ms - claimed >= CLAIM_ms || claimed > now_ms + CLAIM_ms
