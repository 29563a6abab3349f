import type { LogFault } from './fault.ts'
import { hashOf, NO_PREVIOUS, type Sha256 } from './seal.ts'

type Raw = Readonly<Record<string, unknown>>

/**
 * Checks numbers and hashes of the entries of any version of the format.
 * @returns the first fault, or `undefined` when every entry stands on the one before it.
 */
export function checkChain(entries: readonly unknown[], sha256: Sha256): LogFault | undefined {
  let previous = NO_PREVIOUS
  for (const [index, entry] of entries.entries()) {
    const seq = index + 1
    if (!isRaw(entry)) return { kind: 'foreign', seq, reason: `Entry ${seq} is not an entry.` }
    const fault = numberFault(entries, entry, seq) ?? hashFault(entry, seq, previous, sha256)
    if (fault) return fault
    previous = String(entry['hash'])
  }
  return undefined
}

function numberFault(entries: readonly unknown[], entry: Raw, seq: number): LogFault | undefined {
  const found = entry['seq']
  if (found === seq) return undefined
  const shown = JSON.stringify(found)
  if (typeof found === 'number' && found < seq) {
    return { kind: 'repeated', seq, reason: `Entry ${shown} stands again in the place of ${seq}.` }
  }
  const later = entries.some((other) => isRaw(other) && other['seq'] === seq)
  return later
    ? { kind: 'outOfOrder', seq, reason: `Entry ${seq} is out of order: ${shown} stands first.` }
    : { kind: 'gap', seq, reason: `Entry ${seq} is missing: ${shown} stands in its place.` }
}

function hashFault(
  entry: Raw,
  seq: number,
  previous: string,
  sha256: Sha256,
): LogFault | undefined {
  if (entry['previous'] !== previous) {
    return {
      kind: 'brokenHash',
      seq,
      reason: `Entry ${seq} does not follow the entry before it: its link differs.`,
    }
  }
  if (entry['hash'] !== safeHash(entry, sha256)) {
    return {
      kind: 'brokenHash',
      seq,
      reason: `Entry ${seq} was changed after it was written: its hash does not fit.`,
    }
  }
  return undefined
}

/** A text that UTF-8 cannot hold was never sealed by us, so it fits no hash. */
function safeHash(entry: Raw, sha256: Sha256): string | undefined {
  try {
    return hashOf(entry, sha256)
  } catch {
    return undefined
  }
}

const isRaw = (value: unknown): value is Raw =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
