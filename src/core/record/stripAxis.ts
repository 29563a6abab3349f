import { timeOfDay, minutesSeconds } from '../time/format.ts'
import { textWidth_em } from './textWidth.ts'
import type { RulerStrip } from './rulerStrip.ts'

/** A stretch in which nothing happened, drawn short with its length in words. */
export interface Fold {
  readonly from_ms: number
  readonly to_ms: number
  readonly x: number
  readonly width: number
  readonly text: string
}

export interface Tick {
  readonly x: number
  readonly isMinute: boolean
  /** `09:02`; only where there is room for it. */
  readonly text?: string
}

/** Where a time since the opening stands along the ruler. One scale holds wherever it is not folded. */
export interface StripAxis {
  readonly x: (at_ms: number) => number
  readonly folds: readonly Fold[]
  readonly ticks: readonly Tick[]
  /** First and last time on it. */
  readonly from_ms: number
  readonly to_ms: number
}

/** A longer stretch without a mark, and without a band or a needle, is folded. */
const FOLD_ms = 60_000
const TICK_ms = 10_000
const MINUTE_ms = 60_000
export const MARGIN = 10
export const SMALL = 13
/** What the time at the beginning takes. */
export const ROOM = textWidth_em('00:00:00') * SMALL + 8

/** @param width of the whole drawing, in its own units. */
export function stripAxis(strip: RulerStrip, width: number): StripAxis {
  const times = [...timesOf(strip)].sort((a, b) => a - b)
  const from_ms = times[0] ?? 0
  const to_ms = times.at(-1) ?? 0
  const gaps = times.slice(1).flatMap((to, i) => {
    const from = times[i] ?? to
    return to - from > FOLD_ms && !isBusy(strip, from, to) ? [{ from, to }] : []
  })
  const folded = gaps.map(({ from, to }) => {
    const text = minutesSeconds(to - from)
    return { from, to, text, width: textWidth_em(text) * SMALL + 14 }
  })
  const folds_ms = folded.reduce((sum, { from, to }) => sum + to - from, 0)
  const folds_px = folded.reduce((sum, fold) => sum + fold.width, 0)
  const linear_ms = to_ms - from_ms - folds_ms
  const scale = linear_ms > 0 ? Math.max(0, width - 2 * MARGIN - folds_px) / linear_ms : 0
  const x = (at_ms: number): number =>
    folded.reduce(
      (at, fold) => {
        const share = Math.min(1, Math.max(0, (at_ms - fold.from) / (fold.to - fold.from)))
        return at + share * (fold.width - (fold.to - fold.from) * scale)
      },
      MARGIN + (at_ms - from_ms) * scale,
    )
  const folds = folded.map(({ from, to, text, width: room }) => {
    return { from_ms: from, to_ms: to, x: x(from), width: room, text }
  })
  return { x, folds, from_ms, to_ms, ticks: ticksOf(strip, { from_ms, to_ms, x, folds, scale }) }
}

function timesOf({ marks, corrections }: RulerStrip): ReadonlySet<number> {
  const corrected = corrections.flatMap(({ from_ms, to_ms }) => [from_ms, to_ms])
  return new Set([...marks.map(({ at_ms }) => at_ms), ...corrected])
}

const isBusy = ({ bands, needles }: RulerStrip, from: number, to: number): boolean =>
  [...bands, ...needles].some(
    (bar) => bar.to_ms !== undefined && bar.from_ms <= from && bar.to_ms >= to,
  )

interface Laid extends Omit<StripAxis, 'ticks'> {
  readonly scale: number
}

/** On whole minutes and ten seconds of the clock, none within a fold. */
function ticksOf({ openedAt }: RulerStrip, axis: Laid): readonly Tick[] {
  const each_ms = axis.scale * TICK_ms >= 3 ? TICK_ms : MINUTE_ms
  if (axis.scale * each_ms < 1) return []
  const ticks: Tick[] = []
  let free = axis.x(axis.from_ms) + ROOM
  const first = Math.ceil((openedAt.at_ms + axis.from_ms) / each_ms) * each_ms
  for (let at = first; at <= openedAt.at_ms + axis.to_ms; at += each_ms) {
    const since_ms = at - openedAt.at_ms
    const fold = axis.folds.find((each) => since_ms > each.from_ms && since_ms < each.to_ms)
    if (fold) {
      at = Math.floor((openedAt.at_ms + fold.to_ms) / each_ms) * each_ms
      continue
    }
    const isMinute = at % MINUTE_ms === 0
    const text = timeOfDay({ ...openedAt, at_ms: at })
    const room = textWidth_em(text) * SMALL
    const x = axis.x(since_ms)
    const hasRoom =
      isMinute && x - room / 2 > free && axis.folds.every((f) => apart(x, room, f.x, f.width))
    ticks.push({ x, isMinute, ...(hasRoom ? { text } : {}) })
    if (hasRoom) free = x + room / 2 + 6
  }
  return ticks
}

const apart = (x: number, room: number, from: number, width: number): boolean =>
  x + room / 2 + 4 < from || x - room / 2 - 4 > from + width
