import type { FaultRow } from './fault.ts'
import type { BandAlarm } from './outcome.ts'

/** The rows as a table for people. */
export function markdownOf(rows: readonly FaultRow[]): string {
  const lines = rows.map((row) => {
    const saw = row.sawWithin2s === null ? 'nothing' : `${row.sawWithin2s} (${row.seen_ms ?? 0} ms)`
    return [row.fault, row.did, saw, row.lost, alarm(row.bandAlarm), row.verdict]
  })
  const head = ['fault', 'what was done', 'seen within 2 s', 'lost', 'band alarm', 'verdict']
  return [head, head.map(() => '---'), ...lines].map(rowText).join('\n')
}

const rowText = (cells: readonly string[]): string =>
  `| ${cells.map((cell) => cell.replaceAll('|', '\\|').replaceAll('\n', ' ')).join(' | ')} |`

function alarm(band: BandAlarm): string {
  if (band === 'not running') return band
  const { heard, lateness_ms, from } = band
  return lateness_ms === null ? heard : `${heard}, ${lateness_ms} ms after ${from}`
}
