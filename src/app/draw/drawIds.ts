import { countedDrawId, drawIdByLot, MOST_COUNTED } from '../../core/protocol/drawId.ts'
import type { LogStore } from '../../ports/logStore.ts'

export interface DrawIdDeps {
  readonly logStore: Pick<LogStore, 'reserveNumber'>
  /** A whole number from 0 to 4294967295 that nobody can foresee. */
  readonly drawLot: () => number
}

/**
 * The number for a new draw of this device, `D7-20261125-0003`, reserved so that no other draw ever gets it. Where
 * nothing can be stored a count would begin anew with every draw, so the number is drawn by lot instead.
 */
export async function freshDrawId(deps: DrawIdDeps, prefix: string, day: string): Promise<string> {
  const count = await deps.logStore.reserveNumber(prefix, day).catch(() => undefined)
  if (count !== undefined && count <= MOST_COUNTED) return countedDrawId(prefix, day, count)
  return drawIdByLot(prefix, day, deps.drawLot())
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
