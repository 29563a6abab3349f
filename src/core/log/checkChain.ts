import { isRecord } from '../basics/isRecord.ts'
import { quoted } from '../text/shownText.ts'
import { logFault, type LogFault } from './fault.ts'
import { hashOf, NO_PREVIOUS, type Sha256 } from './seal.ts'

type Raw = Readonly<Record<string, unknown>>

/**
 * Checks numbers and hashes of the entries of any version of the format.
 * @returns the first fault, or `undefined` when every entry stands on the one before it.
 */
export function checkChain(entries: readonly unknown[], sha256: Sha256): LogFault | undefined {
  let previous = NO_PREVIOUS
  let numbers: ReadonlySet<unknown> | undefined
  for (const [index, entry] of entries.entries()) {
    const seq = index + 1
    if (!isRecord(entry)) return logFault('notAnEntry', seq)
    if (entry['seq'] !== seq) {
      numbers ??= new Set(entries.map((other) => (isRecord(other) ? other['seq'] : undefined)))
      return numberFault(entry['seq'], seq, numbers)
    }
    const fault = hashFault(entry, seq, previous, sha256)
    if (fault) return fault
    previous = String(entry['hash'])
  }
  return undefined
}

function numberFault(found: unknown, seq: number, numbers: ReadonlySet<unknown>): LogFault {
  const shown = typeof found === 'number' ? String(found) : quoted(String(found))
  if (typeof found === 'number' && found < seq) return logFault('stoodBefore', seq, { shown })
  return logFault(numbers.has(seq) ? 'notInOrder' : 'missing', seq, { shown })
}

function hashFault(
  entry: Raw,
  seq: number,
  previous: string,
  sha256: Sha256,
): LogFault | undefined {
  if (entry['previous'] !== previous) return logFault('otherLink', seq)
  return entry['hash'] === safeHash(entry, sha256) ? undefined : logFault('otherHash', seq)
}

/** A text that UTF-8 cannot hold was never sealed by us, so it fits no hash. */
function safeHash(entry: Raw, sha256: Sha256): string | undefined {
  try {
    return hashOf(entry, sha256)
  } catch {
    return undefined
  }
}
