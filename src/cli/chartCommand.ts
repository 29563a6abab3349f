import { fillText } from '../core/basics/fillText.ts'
import { writeBundle } from '../core/fhir/bundle.ts'
import { NO_TEST_INFO } from '../core/fhir/context.ts'
import type { VerifySignature } from '../core/log/exportFile.ts'
import { logFault } from '../core/log/fault.ts'
import { logFaultSentence } from '../core/log/logTexts.ts'
import { readLog, signatureFault } from '../core/log/readLog.ts'
import type { Sha256 } from '../core/log/seal.ts'
import { verdictLines, verdictOf, type StandingOf } from '../core/log/verdict.ts'
import { recordNote } from '../core/record/recordNote.ts'
import cli from '../data/en/cli.json' with { type: 'json' }
import { texts } from '../data/en/texts.ts'

export const FORMATS = ['note', 'fhir', 'check'] as const

export interface CommandOutcome {
  /** 0 done; 1 the log is not as it was written; 2 the command or the file is of no use. */
  readonly code: 0 | 1 | 2
  readonly out?: string
  readonly err?: string
}

export interface ChartCrypto {
  readonly sha256: Sha256
  readonly verifySignature: VerifySignature
  readonly now_ms: number
}

/**
 * What the command does, apart from files and the terminal. A log that fails its check is never printed as a note.
 * @param bytes of the file; what is not UTF-8 is no log
 * @param expectedKey short name of the key that must have signed the log first
 */
export async function chartCommand(
  bytes: Uint8Array,
  format: string,
  expectedKey: string | undefined,
  crypto: ChartCrypto,
): Promise<CommandOutcome> {
  if (!(FORMATS as readonly string[]).includes(format)) {
    return { code: 2, err: fillText(cli.unknownFormat, { format, formats: FORMATS.join(', ') }) }
  }
  const text = utf8Text(bytes)
  if (text === undefined) return refusal(logFault('notUtf8'))
  const result = readLog(text, crypto.sha256)
  if (!result.ok) return refusal(result.faults[0])
  const { log, parts } = result.value
  const unsigned = await signatureFault(result.value, crypto.verifySignature)
  if (unsigned) return refusal(unsigned)
  const { keyId } = parts[0].trailer
  if (expectedKey !== undefined && expectedKey !== keyId) {
    return refusal(logFault('otherKey', 0, { keyId, expected: expectedKey }))
  }
  if (format === 'check') {
    const named: StandingOf = (publicKey) =>
      expectedKey !== undefined && publicKey === parts[0].trailer.publicKey
        ? { kind: 'trusted', name: texts.log.verdict.namedKey }
        : { kind: 'unknown' }
    const lines = verdictLines(verdictOf(result.value, named, crypto.now_ms), texts.log)
    return { code: 0, out: `${lines.join('\n')}\n` }
  }
  if (format === 'note') return { code: 0, out: recordNote(log, texts).text }
  const bundle = writeBundle(log, texts, crypto.sha256, NO_TEST_INFO)
  return { code: 0, out: `${JSON.stringify(bundle, null, 2)}\n` }
}

function utf8Text(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
  } catch {
    return undefined
  }
}

function refusal(fault = logFault('notALog')): CommandOutcome {
  const useless = fault.kind === 'foreign' || fault.kind === 'futureVersion'
  const { kind, seq } = fault
  const sentence = logFaultSentence(fault, texts.log)
  const err = fillText(seq > 0 ? cli.refusedAt : cli.refused, { kind, seq, sentence })
  return { code: useless ? 2 : 1, err }
}
