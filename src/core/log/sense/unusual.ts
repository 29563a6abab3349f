import type { TextValues } from '../../basics/fillText.ts'
import type { DrawLog, LogEntry } from '../../protocol/entry.ts'
import type { DrawEvent } from '../../protocol/events.ts'
import { calendarDate, dayMonthYear, dayOf } from '../../time/format.ts'
import type { SignedPart } from '../trailer.ts'
import { plansOf } from './plansOf.ts'
import { unexplained } from './unexplained.ts'

export const UNUSUAL = [
  'unplannedTube',
  'undoneTwice',
  'closedTwice',
  'afterClose',
  'clocksStepped',
  'oldClock',
  'longPause',
  'signedBefore',
  'signedAhead',
  'unexplained',
] as const
export type UnusualId = (typeof UNUSUAL)[number]

/** Something odd that may well have been so. */
export interface Unusual {
  readonly id: UnusualId
  readonly values: TextValues
}

/** What is done at the arm and the rack, which ends with the draw. */
const AT_THE_ARM: ReadonlySet<DrawEvent['type']> = new Set([
  'identifierChecked',
  'consentGiven',
  'consentRefused',
  'bandOn',
  'needleIn',
  'tubeOn',
  'tubeOff',
  'needleOut',
])
/** No device ran this app before. */
const FIRST_YEAR = '2026'
const DAY_ms = 86_400_000

/**
 * What is odd about a log that is not impossible: a reader should know, nothing is refused for it.
 * @param now_ms what the clock of this device says, to tell a signature from the future
 */
export function unusual(
  log: DrawLog,
  parts: readonly Pick<SignedPart, 'trailer' | 'entries'>[],
  now_ms: number,
): readonly Unusual[] {
  const odd = unexplained(log)
  let end = 0
  return [
    ...entriesUnusual(log),
    ...clocksUnusual(log),
    ...parts.flatMap(({ trailer, entries }) =>
      signatureUnusual(log.entries[(end += entries) - 1], trailer.exportedAt, now_ms),
    ),
    ...(odd.length > 0 ? [found('unexplained', { n: odd.length, list: listed(odd) })] : []),
  ]
}

function entriesUnusual(log: DrawLog): Unusual[] {
  const planned = new Set(plansOf(log).flatMap(({ plan }) => plan.tubes.map(({ id }) => id)))
  const undone = new Set<number>()
  const seqs: Record<'unplannedTube' | 'undoneTwice' | 'closedTwice' | 'afterClose', number[]> = {
    unplannedTube: [],
    undoneTwice: [],
    closedTwice: [],
    afterClose: [],
  }
  let closed = false
  for (const { event, seq } of log.entries) {
    if (event.type === 'tubeOn' && !planned.has(event.tubeId)) seqs.unplannedTube.push(seq)
    if (event.type === 'entryUndone') {
      if (undone.has(event.seq)) seqs.undoneTwice.push(seq)
      undone.add(event.seq)
    }
    if (closed && event.type === 'drawClosed') seqs.closedTwice.push(seq)
    if (closed && AT_THE_ARM.has(event.type)) seqs.afterClose.push(seq)
    closed ||= event.type === 'drawClosed'
  }
  return (Object.keys(seqs) as (keyof typeof seqs)[])
    .filter((id) => seqs[id].length > 0)
    .map((id) => found(id, { n: seqs[id].length, list: listed(seqs[id]) }))
}

function clocksUnusual({ entries }: DrawLog): Unusual[] {
  const stepped = entries.filter(({ event }) => event.type === 'clockStepped')
  const opened = entries[0]
  const closed = entries.findIndex(({ event }) => event.type === 'drawClosed')
  const running = closed < 0 ? entries : entries.slice(0, closed + 1)
  const paused = running.find(
    ({ at }, index) => at.at_ms - (running[index - 1] ?? { at }).at.at_ms > DAY_ms,
  )
  const day = opened && calendarDate(opened.at)
  return [
    ...(stepped.length > 0
      ? [found('clocksStepped', { n: stepped.length, list: listed(stepped.map((e) => e.seq)) })]
      : []),
    ...(day !== undefined && day < FIRST_YEAR
      ? [found('oldClock', { day: dayMonthYear(day) })]
      : []),
    ...(paused ? [found('longPause', { seq: paused.seq })] : []),
  ]
}

/** @param last the last entry that the signature is over */
function signatureUnusual(
  last: LogEntry | undefined,
  signed_ms: number,
  now_ms: number,
): Unusual[] {
  const day = dayOf({ at_ms: signed_ms, offset_min: last?.at.offset_min ?? 0 })
  if (signed_ms > now_ms + DAY_ms) return [found('signedAhead', { day })]
  return last && signed_ms < last.at.at_ms ? [found('signedBefore', { day })] : []
}

const found = (id: UnusualId, values: TextValues): Unusual => ({ id, values })

/** Numbers of entries, at most ten of them. */
function listed(seqs: readonly number[]): string {
  return seqs.length > 10 ? `${seqs.slice(0, 10).join(', ')}, ...` : seqs.join(', ')
}
