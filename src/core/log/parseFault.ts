import type { JsonFault } from '../text/scanJson.ts'
import { logFault, type LogFault } from './fault.ts'

/** Says in which entry a text stops being the JSON of a log. */
export function parseFault(text: string, { kind, at }: JsonFault): LogFault {
  if (!text.trimStart().startsWith('{')) return logFault('notALog')
  if (text.startsWith('\uFEFF')) return logFault('byteOrderMark')
  const before = text.slice(0, at)
  // Entries end in this way in canonical JSON, so their number up to the break is the number of whole entries.
  const whole = before.match(/,"seq":\d+,"source":"\w+"\}/g)?.length ?? 0
  const ended = before.includes('"trailer":')
  const seq = ended ? 0 : whole + 1
  const character = at + 1
  if (kind === 'breaksOff') return logFault(ended ? 'breaksOffAfter' : 'breaksOffIn', seq)
  if (kind === 'notJson') {
    return logFault(ended ? 'unreadableAfter' : 'unreadableIn', seq, { character })
  }
  return logFault(kind, seq, { character })
}
