import { NO_TEST_INFO } from '../core/fhir/context.ts'
import { writeBundle } from '../core/fhir/bundle.ts'
import type { VerifySignature } from '../core/log/exportFile.ts'
import { logFault } from '../core/log/fault.ts'
import { logFaultSentence } from '../core/log/logTexts.ts'
import { readLog, signatureFault, type ReadLog } from '../core/log/readLog.ts'
import type { Sha256 } from '../core/log/seal.ts'
import { writeNote } from '../core/record/note.ts'
import { texts } from '../data/en/texts.ts'

export const FORMATS = ['note', 'fhir', 'check'] as const

export interface CommandOutcome {
  /** 0 done; 1 the log is not as it was written; 2 the command or the file is of no use. */
  readonly code: 0 | 1 | 2
  readonly out?: string
  readonly err?: string
}

/** What the command does, apart from files and the terminal. A log that fails its check is never printed as a note. */
export async function chartCommand(
  text: string,
  format: string,
  expectedKey: string | undefined,
  crypto: { readonly sha256: Sha256; readonly verifySignature: VerifySignature },
): Promise<CommandOutcome> {
  if (!(FORMATS as readonly string[]).includes(format)) {
    return { code: 2, err: `Format "${format}" is not one of ${FORMATS.join(', ')}.` }
  }
  const result = readLog(text, crypto.sha256)
  if (!result.ok) return refusal(result.faults[0])
  const { log, parts } = result.value
  const unsigned = await signatureFault(result.value, crypto.verifySignature)
  if (unsigned) return refusal(unsigned)
  const { keyId } = parts[0].trailer
  if (expectedKey !== undefined && expectedKey !== keyId) {
    return refusal(logFault('otherKey', 0, { keyId, expected: expectedKey }))
  }
  if (format === 'check') return { code: 0, out: good(result.value) }
  if (format === 'note') return { code: 0, out: writeNote(log, texts.note).text }
  const bundle = writeBundle(log, texts, crypto.sha256, NO_TEST_INFO)
  return { code: 0, out: `${JSON.stringify(bundle, null, 2)}\n` }
}

function good({ log, parts: [{ trailer }], upgradedFrom }: ReadLog): string {
  const lines = [
    `good: ${trailer.entries} entries of draw ${log.drawId}`,
    `last hash ${trailer.lastHash}`,
    `signed by key ${trailer.keyId} at ${new Date(trailer.exportedAt).toISOString()}`,
    ...(upgradedFrom === undefined ? [] : [`written in log format ${upgradedFrom}`]),
  ]
  return `${lines.join('\n')}\n`
}

function refusal(fault = logFault('notALog')): CommandOutcome {
  const useless = fault.kind === 'foreign' || fault.kind === 'futureVersion'
  const where = fault.seq > 0 ? `entry ${fault.seq}, ` : ''
  return {
    code: useless ? 2 : 1,
    err: `bad: ${where}${fault.kind}: ${logFaultSentence(fault, texts.log)}`,
  }
}
