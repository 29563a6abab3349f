import type { DrawLog } from '../../src/core/protocol/entry.ts'
import type { DrawEvent } from '../../src/core/protocol/events.ts'
import type { DrawSitting, SittingPart } from '../../src/core/order/sitting.ts'
import { nextSitting, refusalOf } from '../../src/core/record/nextSitting.ts'
import { seriesOf, type Series } from '../../src/core/record/seriesRecord.ts'
import {
  logOf,
  SAMPLE_START_ms,
  sampleOpening,
  straightLines,
  type Line,
} from '../support/sampleLog.ts'

const MIN_ms = 60_000
const part = (number: number, point: string, after_min?: number): SittingPart => ({
  ...{ code: 'ogtt75', name: 'Glucose tolerance 75 g', number, of: 3, point },
  tests: ['test-citrate'],
  ...(after_min !== undefined && { from: 'drinkFinished', after_min, tolerance_min: 5 }),
})
/** A glucose tolerance test: a fasting sample, and two that are counted from the drink. */
export const WALKED_PARTS = [
  part(1, 'fasting'),
  part(2, '1 h', 60),
  part(3, '2 h', 120),
] as const satisfies readonly SittingPart[]

/** How a draw of the series goes. */
export const OUTCOMES = [
  'drawn',
  'faintAfter',
  'bleedsAfter',
  'swelling',
  'refused',
  'wrongPatient',
  'limitReached',
] as const
export type Outcome = (typeof OUTCOMES)[number]

export const WHENS = ['early', 'inTime', 'late'] as const
export type When = (typeof WHENS)[number]

/** What may happen to a series. `begin` leaves its draw open, `end` brings an open one to its end. */
export type SeriesMove =
  | { readonly type: 'draw'; readonly key: string; readonly outcome: Outcome; readonly when: When }
  | { readonly type: 'begin'; readonly key: string }
  | { readonly type: 'end' }
  | { readonly type: 'drink' }
  | { readonly type: 'goOn' }
  | { readonly type: 'leaveOut'; readonly why: 'vomited' }

/** Records of one series, as they stand on the disk. */
export type SeriesLogs = readonly DrawLog[]

const FIRST_ID = 'D7-20261125-0001'

/** The series as its records tell it; before its first draw there is none. */
export const seriesIn = (logs: SeriesLogs): Series | undefined => seriesOf(logs)

const MOVES: readonly SeriesMove[] = [
  ...WALKED_PARTS.flatMap(({ number }): readonly SeriesMove[] => {
    const key = `ogtt75/${number}`
    return [
      ...OUTCOMES.map((outcome) => ({ type: 'draw', key, outcome, when: 'inTime' }) as const),
      { type: 'draw', key, outcome: 'drawn', when: 'early' },
      { type: 'draw', key, outcome: 'drawn', when: 'late' },
      { type: 'begin', key },
    ]
  }),
  { type: 'end' },
  { type: 'drink' },
  { type: 'goOn' },
  { type: 'leaveOut', why: 'vomited' },
]

/** Moves that the rules of the product let through in that state. */
export function openMoves(logs: SeriesLogs): readonly SeriesMove[] {
  const series = seriesIn(logs)
  return MOVES.filter((move) => {
    switch (move.type) {
      case 'draw':
      case 'begin': {
        if (!series) return move.key === 'ogtt75/1'
        const sitting = series.sittings.find(({ key }) => key === move.key)
        return sitting !== undefined && refusalOf(series, sitting) === undefined
      }
      case 'end':
        return series?.sittings.some(({ state }) => state === 'open') ?? false
      case 'drink':
        return series !== undefined && series.moments.every((told) => told.moment === 'firstDrawn')
      case 'goOn':
        return (series?.holds.length ?? 0) > 0
      case 'leaveOut':
        return series?.sittings.some(({ state }) => state === 'todo' || state === 'failed') ?? false
    }
  })
}

/** The records once the move is made. */
export function movedBy(logs: SeriesLogs, move: SeriesMove): SeriesLogs {
  const series = seriesIn(logs)
  switch (move.type) {
    case 'draw':
      return [...logs, drawOf(logs, move.key, move.outcome, move.when)]
    case 'begin': {
      const whole = drawOf(logs, move.key, 'drawn', 'inTime')
      return [...logs, { ...whole, entries: whole.entries.slice(0, 4) }]
    }
    case 'end':
      return logs.map((log) => (isClosed(log) ? log : ended(log)))
    case 'drink':
      return added(logs, FIRST_ID, { type: 'momentNoted', moment: 'drinkFinished' })
    case 'goOn': {
      const holds = series?.holds ?? []
      const ids = new Set([FIRST_ID, ...holds.map(({ drawId }) => drawId)])
      const event: DrawEvent = { type: 'seriesWentOn', holds, by: 'Dr. Pat Placeholder', why: 'ok' }
      return [...ids].reduce((now, id) => added(now, id, event), logs)
    }
    case 'leaveOut': {
      const left = series?.sittings.filter(({ state }) => state === 'todo' || state === 'failed')
      const sittings = (left ?? []).map(({ part: { code, number } }) => ({ code, number }))
      return added(logs, FIRST_ID, { type: 'sittingsLeftOut', sittings, why: move.why })
    }
  }
}

const isClosed = ({ entries }: DrawLog): boolean =>
  entries.some(({ event }) => event.type === 'drawClosed')

const startOf = (log: DrawLog): number => log.entries[0]?.at.at_ms ?? SAMPLE_START_ms

/** An event behind the last of a record. */
function added(logs: SeriesLogs, drawId: string, event: DrawEvent): SeriesLogs {
  return logs.map((log) => {
    if (log.drawId !== drawId) return log
    const start_ms = startOf(log)
    const lines = log.entries.map((entry): Line => [
      (entry.at.at_ms - start_ms) / 1000,
      entry.event,
    ])
    const last_s = lines.at(-1)?.[0] ?? 0
    return logOf([...lines, [last_s + 10, event]], start_ms)
  })
}

function ended(log: DrawLog): DrawLog {
  const [first] = log.entries
  if (first?.event.type !== 'drawOpened') throw new Error('The record begins no draw.')
  return logOf(linesOf(straightLines(first.event), 'drawn'), startOf(log))
}

function drawOf(logs: SeriesLogs, key: string, outcome: Outcome, when: When): DrawLog {
  const series = seriesIn(logs)
  const sitting = series?.sittings.find((each) => each.key === key)
  const as: DrawSitting =
    series && sitting
      ? nextSitting(series, sitting)
      : { series: FIRST_ID, parts: [WALKED_PARTS[0]], later: WALKED_PARTS.slice(1) }
  const drawId = `D7-20261125-${String(logs.length + 1).padStart(4, '0')}`
  const { plan, order } = sampleOpening()
  const opening = sampleOpening({
    drawId,
    sitting: as,
    order: { ...order, tests: as.parts.flatMap(({ tests }) => tests) },
    plan: { ...plan, tubes: plan.tubes.slice(0, 1) },
  })
  const off_min = { early: -20, inTime: 0, late: 20 }[when]
  // Its tube comes off 123 s after the opening.
  const due_ms = sitting?.due_ms === undefined ? undefined : sitting.due_ms - 123_000
  const start_ms = (due_ms ?? SAMPLE_START_ms + logs.length * 600_000) + off_min * MIN_ms
  return logOf(linesOf(straightLines(opening), outcome), start_ms)
}

/** The lines of a straight draw as that outcome leaves them; its second and third tube are not in the plan. */
function linesOf(straight: readonly Line[], outcome: Outcome): readonly Line[] {
  const own = straight.filter(
    ([, event]) => !('tubeId' in event) || event.tubeId === undefined || event.tubeId === 't1',
  )
  const until = (last_s: number): readonly Line[] => own.filter(([at_s]) => at_s <= last_s)
  switch (outcome) {
    case 'drawn':
      return own
    case 'faintAfter':
      return [...own, [305, { type: 'exceptionRaised', kind: 'faint' }]]
    case 'bleedsAfter':
      return [...own, [280, { type: 'exceptionRaised', kind: 'bleedingContinues' }]]
    case 'swelling':
      return [
        ...until(114),
        [115, { type: 'exceptionRaised', kind: 'swelling' }],
        [118, { type: 'needleOut' }],
        [400, { type: 'drawClosed', outcome: 'stopped' }],
      ]
    case 'refused':
      return [
        ...until(10),
        [20, { type: 'consentRefused' }],
        [30, { type: 'drawClosed', outcome: 'notDrawn' }],
      ]
    case 'wrongPatient':
      return [
        ...until(0),
        [10, { type: 'exceptionRaised', kind: 'identityMismatch' }],
        [30, { type: 'drawClosed', outcome: 'notDrawn' }],
      ]
    case 'limitReached':
      return [...until(25), [30, { type: 'drawClosed', outcome: 'notDrawn' }]]
  }
}

/** What of a series decides how it can go on. */
export function seriesKey(logs: SeriesLogs): string {
  const series = seriesIn(logs)
  if (!series) return 'not begun'
  const told = series.moments.some(({ moment }) => moment === 'drinkFinished')
  const late = series.sittings.map(({ due_ms, drawn_ms }) =>
    due_ms === undefined || drawn_ms === undefined ? '' : Math.sign(drawn_ms - due_ms),
  )
  const holds = [...new Set(series.holds.map(({ why }) => why))].sort()
  const states = series.sittings.map(({ state }) => state)
  return [states, late, told ? 'told' : '', holds, series.isOver ? 'over' : ''].join('|')
}

export interface WalkedSeries {
  readonly logs: SeriesLogs
  readonly next: readonly string[]
}

/** Every abstract state of the series, each once, with the states it leads to. */
export function walkSeries(): ReadonlyMap<string, WalkedSeries> {
  const states = new Map<string, WalkedSeries>()
  const waiting: SeriesLogs[] = [[]]
  for (let logs = waiting.pop(); logs; logs = waiting.pop()) {
    const key = seriesKey(logs)
    if (states.has(key)) continue
    const from = logs
    const led = openMoves(from).map((move) => movedBy(from, move))
    states.set(key, { logs, next: led.map(seriesKey) })
    waiting.push(...led)
  }
  return states
}
