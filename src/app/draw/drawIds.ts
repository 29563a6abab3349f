import { countedDrawId, drawIdByLot, MOST_COUNTED } from '../../core/protocol/drawId.ts'
import type { Clock } from '../../ports/clock.ts'
import type { LogStore } from '../../ports/logStore.ts'
import { within } from '../../ports/patience.ts'
import { StorageError, storageFaultOf } from '../../ports/storageFault.ts'

/** So long a new draw waits for its number: whoever has pressed the button must see it begin. */
const NUMBER_PATIENCE_ms = 800

export interface DrawIdDeps {
  readonly clock: Clock
  readonly logStore: Pick<LogStore, 'reserveNumber'>
  /** A whole number from 0 to 4294967295 that nobody can foresee. */
  readonly drawLot: () => number
  /** The store gave no number in time; it may come to give it later, and that one is then never used. */
  readonly onNoAnswer: () => void
  /** Whether another device is known to have given that number: two may have been set to one prefix. */
  readonly isGiven?: (drawId: string) => boolean
}

/** So many numbers that others have given are passed over; then it is drawn by lot. */
const MOST_GIVEN = 200

/**
 * The number for a new draw of this device, `D7-20261125-0003`, reserved so that no other draw ever gets it. Where
 * nothing can be stored a count would begin anew with every draw, so the number is drawn by lot instead.
 */
export async function freshDrawId(deps: DrawIdDeps, prefix: string, day: string): Promise<string> {
  const { isGiven = () => false } = deps
  for (let tries = 0; tries < MOST_GIVEN; tries++) {
    const drawId = await nextDrawId(deps, prefix, day)
    if (!isGiven(drawId)) return drawId
  }
  return drawIdByLot(prefix, day, deps.drawLot())
}

async function nextDrawId(deps: DrawIdDeps, prefix: string, day: string): Promise<string> {
  const late = (): Error => new StorageError('hanging', 'No number was given in time.')
  const reserving = deps.logStore.reserveNumber(prefix, day)
  const count = await within(deps.clock, NUMBER_PATIENCE_ms, reserving, late).catch(
    (error: unknown) => {
      if (storageFaultOf(error) === 'hanging') deps.onNoAnswer()
      return undefined
    },
  )
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
