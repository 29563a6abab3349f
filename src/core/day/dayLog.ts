import { defined } from '../basics/defined.ts'
import { checkChain } from '../log/checkChain.ts'
import { entryFaultBy } from '../log/entryFault.ts'
import { logFault, type LogFault } from '../log/fault.ts'
import type { Sha256 } from '../log/seal.ts'
import type { DayEntry } from './dayEvents.ts'
import { DAY_SHAPES } from './dayShape.ts'

/** The log of one local day, `2026-11-26`: one chain, only ever added to. */
export interface DayLog {
  readonly day: string
  readonly entries: readonly DayEntry[]
  /** The first thing wrong with what is stored; the entries are those before it. */
  readonly fault?: LogFault
}

/**
 * Checks what is stored of a day from its first entry to its last: numbers, hashes, shapes and times. What stands
 * before the first fault can still be read.
 */
export function readDayLog(day: string, stored: readonly unknown[], sha256: Sha256): DayLog {
  const fault = earliest(checkChain(stored, sha256), shapeFault(stored))
  const readable = fault ? stored.slice(0, Math.max(0, fault.seq - 1)) : stored
  return defined({ day, entries: readable as readonly DayEntry[], fault })
}

function shapeFault(stored: readonly unknown[]): LogFault | undefined {
  let last_ms = -Infinity
  for (const [index, entry] of stored.entries()) {
    const seq = index + 1
    const fault = entryFaultBy(DAY_SHAPES, entry, seq)
    if (fault) return fault
    const { at } = entry as DayEntry
    if (at.at_ms < last_ms) return logFault('earlier', seq)
    last_ms = at.at_ms
  }
  return undefined
}

function earliest(a: LogFault | undefined, b: LogFault | undefined): LogFault | undefined {
  if (!a || !b) return a ?? b
  return b.seq < a.seq ? b : a
}
