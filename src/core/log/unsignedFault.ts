import { isRecord } from '../basics/isRecord.ts'
import { quoted } from '../text/shownText.ts'
import { logFault, type LogFault } from './fault.ts'

/** A field beside those that the signature covers: anybody could have put it there, so a file with one is refused. */
export function unsignedFault(value: unknown, known: readonly string[]): LogFault | undefined {
  const names = isRecord(value) ? Object.keys(value) : []
  const foreign = names.find((name) => !known.includes(name))
  return foreign === undefined ? undefined : logFault('unsignedField', 0, { name: quoted(foreign) })
}
