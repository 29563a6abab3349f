import { isRecord } from '../basics/isRecord.ts'
import { faulty, ok, type Result } from '../basics/result.ts'
import { parseJson } from '../text/parseJson.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { checkChain } from './checkChain.ts'
import { entriesFault } from './checkLog.ts'
import { exportText, type LogPart, type PartFile } from './exportFile.ts'
import { logFault, type LogFault } from './fault.ts'
import { parseFault } from './parseFault.ts'
import type { Sha256 } from './seal.ts'
import { signedText, trailerFault, type SignedPart } from './trailer.ts'
import { unsignedFault } from './unsignedFault.ts'

interface Continued {
  readonly log: DrawLog
  readonly parts: readonly SignedPart[]
}

/** Reads what other devices added behind a log, one line a device, each continuing the chain of the line before. */
export function readParts(log: DrawLog, text: string, sha256: Sha256): Result<Continued, LogFault> {
  if (text === '') return ok({ log, parts: [] })
  const parts: SignedPart[] = []
  let whole = log
  // The last line feed ends the last line; a line without one was cut.
  for (const line of text.split(/(?<=\n)/)) {
    const read = readPart(whole, line, sha256)
    if (!read.ok) return read
    whole = { ...whole, entries: [...whole.entries, ...read.value.part.entries] }
    parts.push(read.value.signed)
  }
  const fault = checkChain(whole.entries, sha256) ?? entriesFault(whole)
  return fault ? faulty([fault]) : ok({ log: whole, parts })
}

function readPart(
  log: DrawLog,
  line: string,
  sha256: Sha256,
): Result<{ readonly part: LogPart; readonly signed: SignedPart }, LogFault> {
  const json = parseJson(line)
  if (!json.ok) {
    const [fault] = json.faults.map((each) => parseFault(line, each))
    const at = fault && fault.seq > 0 ? { ...fault, seq: fault.seq + log.entries.length } : fault
    return faulty([at ?? logFault('otherPart')])
  }
  const file = json.value as PartFile
  const { entries } = log
  const fault =
    partHeadFault(log, json.value) ??
    trailerFault(file.part.entries, file.trailer, sha256, entries.length) ??
    (line === exportText(file) ? undefined : logFault('otherText'))
  if (fault) return faulty([fault])
  const { part, trailer } = file
  const signed = { entries: part.entries.length, trailer, signedText: signedText(part, trailer) }
  return ok({ part, signed })
}

function partHeadFault(log: DrawLog, file: unknown): LogFault | undefined {
  const part = isRecord(file) ? file['part'] : undefined
  if (!isRecord(part) || part['format'] !== 'stillhand-log-part') return logFault('otherPart')
  const { version, entries } = part
  if (version !== 1) return logFault('newerVersion', 0, { version: String(version), newest: 1 })
  const unsigned =
    unsignedFault(file, ['part', 'trailer']) ??
    unsignedFault(part, ['format', 'version', 'drawId', 'follows', 'entries'])
  if (unsigned) return unsigned
  const seq = log.entries.length + 1
  if (part['drawId'] !== log.drawId) return logFault('otherDraw', seq, { drawId: log.drawId })
  if (part['follows'] !== log.entries.at(-1)?.hash) return logFault('otherLink', seq)
  if (!Array.isArray(entries) || entries.length === 0) return logFault('empty', seq)
  return entries.every(isRecord) ? undefined : logFault('notAnEntry', seq)
}
