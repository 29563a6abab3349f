import type { DrawLog } from '../../protocol/entry.ts'
import { logFault, type LogFault } from '../fault.ts'
import type { Trailer } from '../trailer.ts'
import { amountFault } from './amounts.ts'
import { idFault } from './ids.ts'
import { patientFault } from './patientSense.ts'
import { sequenceFault } from './sequence.ts'
import { timeFault, YEAR_10000_ms } from './times.ts'

/** More than a page that repeats an alarm every five seconds writes in a day. */
const MOST_ENTRIES = 20_000

/** A log is signed after it was opened; a device never writes an earlier time, see `exportLog`. */
export function exportTimeFault(log: DrawLog, { exportedAt }: Trailer): LogFault | undefined {
  const opened_ms = log.entries[0]?.at.at_ms ?? 0
  const early = exportedAt < opened_ms || exportedAt >= YEAR_10000_ms
  return early ? logFault('exportedEarly') : undefined
}

/**
 * The first thing in a well formed log that cannot have been so, or `undefined`. Only what is certain: a log with it
 * was not written by this app, whoever signed it. What is merely odd is for `unusual`.
 */
export function impossible(log: DrawLog): LogFault | undefined {
  if (log.entries.length > MOST_ENTRIES) {
    return logFault('tooMany', MOST_ENTRIES + 1, { most: MOST_ENTRIES })
  }
  return (
    idFault(log) ?? patientFault(log) ?? amountFault(log) ?? timeFault(log) ?? sequenceFault(log)
  )
}
