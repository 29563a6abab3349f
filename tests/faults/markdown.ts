import type { FaultRow } from './fault.ts'
import type { BandAlarm } from './outcome.ts'

/** The rows as a table for people: what was said is cut to what a glance reads. */
export function markdownOf(rows: readonly FaultRow[]): string {
  const head = ['fault', 'what was done', 'seen within 2 s', 'lost', 'band alarm', 'verdict']
  const lines = rows.map((row) => [
    ...[row.fault, row.did, seenOf(row), lostOf(row), alarmOf(row.bandAlarm), row.verdict],
  ])
  return [head, head.map(() => '---'), ...lines].map(rowText).join('\n')
}

const rowText = (cells: readonly string[]): string =>
  `| ${cells.map((cell) => cell.replaceAll('|', '\\|').replaceAll('\n', ' ')).join(' | ')} |`

const MOST_SEEN = 60

function seenOf({ sawWithin2s, seen_ms }: FaultRow): string {
  if (sawWithin2s === null) return 'nothing'
  const words = sawWithin2s.length > MOST_SEEN
  const text = words ? `${sawWithin2s.slice(0, MOST_SEEN - 3).trimEnd()}...` : sawWithin2s
  return `${text} (${seen_ms ?? 0} ms)`
}

const lostOf = ({ lost }: FaultRow): string => lost.replace(' confirmed (store)', '')

function alarmOf(band: BandAlarm): string {
  if (band === 'not running') return band
  const { heard, lateness_ms, from } = band
  if (lateness_ms === null) return heard
  return `${heard}, ${lateness_ms} ms${from === 'the limit' ? '' : ` after ${from}`}`
}
