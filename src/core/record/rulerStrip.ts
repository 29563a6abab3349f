import { defined } from '../basics/defined.ts'
import type { PlannedTube } from '../plan/plan.ts'
import type { DrawLog, LogEntry } from '../protocol/entry.ts'
import type { Outcome } from '../protocol/events.ts'
import { keptEntries } from '../protocol/keptEntries.ts'
import { limit_ms } from '../policy/policy.ts'
import type { Elapsed } from '../time/course.ts'
import { elapsed, type Stamp } from '../time/stamp.ts'
import { bandOver_ms } from './bandText.ts'
import { isOfExposure } from './isOfExposure.ts'
import { isMarked, type MarkedEvent } from './markedEvents.ts'
import { namedHandovers } from './namedHandovers.ts'
import { timeCorrections, timedEntries } from './timedEntries.ts'

/** One thing that happened, at its time since the opening. */
export interface StripMark {
  readonly seq: number
  readonly at_ms: number
  readonly event: MarkedEvent
  /** It begins or ends a bar, which says so in its place. */
  readonly inBar?: 'from' | 'to'
}

/** From when to when; without an end it is open, or nobody said. */
interface Bar {
  readonly seq: number
  readonly from_ms: number
  readonly to_ms?: number
}

export interface StripBand extends Bar {
  readonly length?: Elapsed
  /** By how much it may have been over its limit; 0 when it was not. */
  readonly over_ms: number
  /** No needle was in meanwhile: the vein was looked for. */
  readonly isSearch: boolean
}

export interface StripNeedle extends Bar {
  /** 1, 2, ... in this draw. */
  readonly attempt: number
  readonly isLancet: boolean
}

export interface StripTube extends Bar {
  readonly tubeId: string
  /** Place among the tubes as they first went on, from 1. */
  readonly place: number
  readonly name: string
  readonly closure: string
  readonly isDiscard: boolean
  readonly fill?: 'full' | 'short' | 'empty' | 'lost'
}

/** Times that were written while the clock stood wrong, and are told here as they are known now. */
export interface StripCorrection {
  readonly from_ms: number
  readonly to_ms: number
  readonly by_ms: number
}

/** A draw as marks and bars along a ruler; every time is ms since the opening. */
export interface RulerStrip {
  readonly drawId: string
  /** A practice draw. */
  readonly isInvented: boolean
  readonly openedAt: Stamp
  readonly bandLimit_ms: number
  readonly marks: readonly StripMark[]
  readonly bands: readonly StripBand[]
  readonly needles: readonly StripNeedle[]
  readonly tubes: readonly StripTube[]
  /** What the planned tubes are called, by their ids: also of one that never went on. */
  readonly tubeNames: ReadonlyMap<string, string>
  readonly pressures: readonly Bar[]
  readonly corrections: readonly StripCorrection[]
  /** When the app gave a cue. */
  readonly cues: readonly { readonly seq: number; readonly at_ms: number }[]
  readonly outcome?: Outcome
}

/**
 * The ruler of a draw from its log, open or closed. Every entry that counts and has a mark is on it, and every taking
 * back; what was taken back is not.
 * @throws RangeError when the log does not begin with the opening of a draw.
 */
export function rulerStrip(log: DrawLog): RulerStrip {
  const timed = timedEntries(log.entries)
  const { kept } = keptEntries(timed)
  const counts = new Set(kept)
  const hidden = new Set(timed.filter(({ event }) => isOfExposure(event)).map(({ seq }) => seq))
  const shown = timed.filter(
    (entry) =>
      counts.has(entry) || (entry.event.type === 'entryUndone' && !hidden.has(entry.event.seq)),
  )
  const corrections = timeCorrections(log.entries, timed)
  const indexOf = (at: Stamp): number => log.entries.findIndex((entry) => entry.at === at)
  const strip = stripOf(shown)
  const since = (stamp: Stamp | undefined): number =>
    (stamp?.at_ms ?? strip.openedAt.at_ms) - strip.openedAt.at_ms
  return {
    ...strip,
    corrections: corrections.map(({ from, to, by_ms }) => ({
      from_ms: since(timed[indexOf(from)]?.at),
      to_ms: since(timed[indexOf(to)]?.at),
      by_ms,
    })),
  }
}

/**
 * The ruler of entries that count, in their order, as of a draw that runs.
 * @throws RangeError when they do not begin with the opening of a draw.
 */
export function stripOf(entries: readonly LogEntry[]): RulerStrip {
  const first = entries[0]
  if (first?.event.type !== 'drawOpened') throw new RangeError('The log does not open a draw.')
  const { at: openedAt, event: opened } = first
  const now: Growing = { marks: [], bands: [], needles: [], tubes: [], pressures: [] }
  const planned = new Map(opened.plan.tubes.map((tube) => [tube.id, tube]))
  let outcome: Outcome | undefined
  for (const entry of namedHandovers(entries)) {
    const { event } = entry
    if (event.type === 'planRevised')
      for (const tube of event.plan.tubes) planned.set(tube.id, tube)
    if (event.type === 'drawClosed') outcome = event.outcome
    if (isMarked(event) && !isOfExposure(event))
      take(now, { entry, event, at_ms: entry.at.at_ms - openedAt.at_ms, planned })
  }
  const { needles, tubes, pressures, marks } = now
  const bands = now.bands.map(({ on, off, ...bar }): StripBand => {
    const length = off && elapsed(on, off)
    const over_ms = bandOver_ms(defined({ on, off, length }), opened.policy)
    return defined({ ...bar, length, over_ms, isSearch: !needles.some((n) => overlap(n, bar)) })
  })
  return defined({
    drawId: opened.drawId,
    isInvented: opened.invented,
    openedAt,
    bandLimit_ms: limit_ms(opened.policy, 'bandLimit_s'),
    marks,
    bands,
    needles,
    tubes,
    tubeNames: new Map([...planned].map(([id, { name }]) => [id, name])),
    pressures,
    corrections: [],
    cues: entries.flatMap(({ seq, at, event }) =>
      event.type === 'cueGiven' ? [{ seq, at_ms: at.at_ms - openedAt.at_ms }] : [],
    ),
    outcome,
  })
}

const overlap = (a: Bar, b: Bar): boolean =>
  a.from_ms <= (b.to_ms ?? Infinity) && b.from_ms <= (a.to_ms ?? Infinity)

type Open<T> = { -readonly [K in keyof T]: T[K] }

interface Growing {
  readonly marks: StripMark[]
  readonly bands: (Open<Bar> & { readonly on: Stamp; off?: Stamp })[]
  readonly needles: Open<StripNeedle>[]
  readonly tubes: Open<StripTube>[]
  readonly pressures: Open<Bar>[]
}

interface Taken {
  readonly entry: LogEntry
  readonly event: MarkedEvent
  readonly at_ms: number
  readonly planned: ReadonlyMap<string, PlannedTube>
}

function take(now: Growing, taken: Taken): void {
  const { entry, event, at_ms } = taken
  if (isOnlyNaming(now, event)) return
  const inBar = barPart(now, taken)
  now.marks.push(defined({ seq: entry.seq, at_ms, event, inBar }))
}

/** Which tube has no label, or which after all: the same trouble, marked where it was raised. */
function isOnlyNaming({ marks }: Growing, event: MarkedEvent): boolean {
  if (event.type !== 'exceptionRaised' || event.kind !== 'unlabelledTube') return false
  const last = marks.findLast((mark) => 'kind' in mark.event && mark.event.kind === event.kind)
  return event.tubeId !== undefined && last?.event.type === 'exceptionRaised'
}

/** Begins or ends the bars that this is about, and says whether it did. */
function barPart(now: Growing, taken: Taken): 'from' | 'to' | undefined {
  const { entry, event, at_ms } = taken
  const bar = { seq: entry.seq, from_ms: at_ms }
  switch (event.type) {
    case 'bandOn':
      now.bands.push({ ...bar, on: entry.at })
      return 'from'
    case 'bandOff': {
      const open = now.bands.filter((band) => band.to_ms === undefined)
      for (const band of open) band.off = entry.at
      return end(open, at_ms)
    }
    case 'needleIn':
    case 'lanced': {
      const attempt = now.needles.length + 1
      now.needles.push({ ...bar, attempt, isLancet: event.type === 'lanced' })
      return 'from'
    }
    case 'needleOut':
      return end(now.needles.filter(isOpen), at_ms)
    case 'pressureOn':
      end(
        now.needles.filter((needle) => isOpen(needle) && needle.isLancet),
        at_ms,
      )
      now.pressures.push(bar)
      return 'from'
    case 'bleedingStopped':
      return end(now.pressures.filter(isOpen), at_ms)
    case 'tubeOn':
      now.tubes.push({ ...bar, ...tubeOf(now, event.tubeId, taken.planned) })
      return 'from'
    case 'tubeOff': {
      const open = now.tubes.filter((tube) => isOpen(tube) && tube.tubeId === event.tubeId)
      for (const tube of open) tube.fill = event.fill
      return end(open, at_ms)
    }
    case 'tubeSwapped': {
      const lost = now.tubes.filter(({ tubeId }) => tubeId === event.tubeId)
      for (const tube of lost) tube.fill = 'lost'
      end(lost.filter(isOpen), at_ms)
      return undefined
    }
    default:
      return undefined
  }
}

const isOpen = ({ to_ms }: Bar): boolean => to_ms === undefined

function end(bars: readonly Open<Bar>[], at_ms: number): 'to' | undefined {
  for (const bar of bars) bar.to_ms = at_ms
  return bars.length > 0 ? 'to' : undefined
}

function tubeOf(
  { tubes }: Growing,
  tubeId: string,
  planned: Taken['planned'],
): Pick<StripTube, 'tubeId' | 'place' | 'name' | 'closure' | 'isDiscard'> {
  const tube = planned.get(tubeId)
  const before = [...new Set(tubes.map((each) => each.tubeId))]
  const at = before.indexOf(tubeId)
  return {
    tubeId,
    place: at >= 0 ? at + 1 : before.length + 1,
    name: tube?.name ?? tubeId,
    closure: tube?.closure ?? '',
    isDiscard: tube?.role === 'discard',
  }
}
