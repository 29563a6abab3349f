import type { LogFault } from './fault.ts'
import { errorText } from '../basics/errorText.ts'

/** Says about where a text stops being JSON, from the engine's message if it tells, or the end of the text. */
export function parseFault(text: string, error: unknown): LogFault {
  const message = errorText(error)
  const position = /position (\d+)/.exec(message)?.[1]
  const at = position === undefined ? text.length : Number(position)
  if (!text.trimStart().startsWith('{')) {
    return { kind: 'foreign', seq: 0, reason: 'This is not a Stillhand log.' }
  }
  // Entries end in this way in canonical JSON, so their number up to the break is the number of whole entries.
  const whole = text.slice(0, at).match(/,"seq":\d+,"source":"\w+"\}/g)?.length ?? 0
  const ended = text.slice(0, at).includes('"trailer":')
  const seq = ended ? 0 : whole + 1
  const where = ended ? 'after the last entry' : `in entry ${seq}`
  return at >= text.length
    ? { kind: 'truncated', seq, reason: `The file breaks off ${where}.` }
    : { kind: 'notJson', seq, reason: `The file cannot be read ${where}, at character ${at + 1}.` }
}
