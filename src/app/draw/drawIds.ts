import type { StoredDraw } from '../../ports/logStore.ts'

/**
 * The id of the next draw on this device: prefix, day and a count, `D7-20261125-0003`.
 * The prefix keeps devices apart; the count goes on from the highest one stored, so it never repeats here.
 */
export function nextDrawId(prefix: string, date: string, stored: readonly StoredDraw[]): string {
  const day = date.replaceAll('-', '')
  const start = `${prefix}-${day}-`
  const counts = stored
    .filter(({ drawId }) => drawId.startsWith(start))
    .map(({ drawId }) => Number(drawId.slice(start.length)) || 0)
  return `${start}${String(Math.max(0, ...counts) + 1).padStart(4, '0')}`
}

/** A device prefix from random bytes: two letters and two digits, none that look alike. */
export function devicePrefixFrom(bytes: Uint8Array): string {
  const letters = 'ABCDEFGHJKLMNPQRSTUVWXYZ'
  const digits = '23456789'
  const pick = (from: string, byte = 0): string => from.charAt(byte % from.length)
  return (
    pick(letters, bytes[0]) +
    pick(letters, bytes[1]) +
    pick(digits, bytes[2]) +
    pick(digits, bytes[3])
  )
}
