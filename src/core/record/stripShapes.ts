import { clockTime } from '../time/format.ts'
import type { RulerStrip, StripMark } from './rulerStrip.ts'
import { MARGIN, ROOM, SMALL, type StripAxis } from './stripAxis.ts'
import type { StripLook, StripShape } from './stripDrawing.ts'
import { isLoud } from './stripWanted.ts'

export const LANE = { tube: 16, needle: 8, band: 14 } as const

/** The ruler itself with its times. */
export function rulerShapes(
  strip: RulerStrip,
  axis: StripAxis,
  y: number,
  { width, hasWords }: { readonly width: number; readonly hasWords: boolean },
): readonly StripShape[] {
  const { openedAt } = strip
  const time = (x: number, text: string, middle: boolean, above = 5): StripShape[] =>
    hasWords ? [{ kind: 'text', look: 'time', x, y: y - above, middle, text }] : []
  // The time of the first mark stands a row higher where a fold begins below it.
  const first = axis.folds.some((fold) => fold.x < MARGIN + ROOM) ? 5 + SMALL : 5
  const line = (look: StripLook, x1: number, y1: number, x2: number, y2: number): StripShape => {
    return { kind: 'line', look, x1, y1, x2, y2 }
  }
  return [
    line('axis', 0, y, width, y),
    ...axis.ticks.flatMap(({ x, isMinute, text }) => [
      line(isMinute ? 'minute' : 'tick', x, y, x, y + (isMinute ? 10 : 5)),
      ...(text === undefined ? [] : time(x, text, true)),
    ]),
    ...axis.folds.flatMap((fold): StripShape[] => [
      { kind: 'path', look: 'fold', d: zigzag(fold.x, fold.width, y) },
      ...time(fold.x + fold.width / 2, fold.text, true),
    ]),
    ...time(MARGIN, clockTime({ ...openedAt, at_ms: openedAt.at_ms + axis.from_ms }), false, first),
    ...strip.corrections.map((each) =>
      line('corrected', axis.x(each.from_ms), y + 3, axis.x(each.to_ms) + 2, y + 3),
    ),
  ]
}

const zigzag = (x: number, width: number, y: number): string =>
  `M${n(x)} ${y}l${n(width / 4)} -4l${n(width / 2)} 8l${n(width / 4)} -4`

const n = (value: number): number => Math.round(value * 100) / 100

/** How far down each part stands. */
export interface Lanes {
  readonly ruler: number
  readonly tubes: number
  readonly needle: number
  readonly band: number
  readonly foot: number
}

/** What has a length: bands, needles, pressure and tubes. */
export function bars(strip: RulerStrip, axis: StripAxis, lanes: Lanes): readonly StripShape[] {
  const bar = (
    look: StripLook,
    { seq, from_ms, to_ms }: { seq: number; from_ms: number; to_ms?: number },
    y: number,
    height: number,
    closure?: string,
  ): StripShape => {
    const x = axis.x(from_ms)
    const width = Math.max(3, axis.x(to_ms ?? axis.to_ms) - x)
    const base = {
      kind: 'bar',
      look,
      seq,
      x,
      y,
      width,
      height,
      isOpen: to_ms === undefined,
    } as const
    return closure === undefined ? base : { ...base, closure }
  }
  return [
    ...strip.bands.flatMap((band) => [
      bar(band.isSearch ? 'search' : 'band', band, lanes.band, LANE.band),
      ...overOf(band, strip, axis).map((over) => bar('over', over, lanes.band, LANE.band)),
    ]),
    ...strip.needles.map((needle) => bar('needle', needle, lanes.needle, LANE.needle)),
    ...strip.pressures.map((each) => bar('pressure', each, lanes.needle, LANE.needle)),
    ...strip.tubes.map((tube) => bar(lookOf(tube), tube, lanes.tubes, LANE.tube, tube.closure)),
  ]
}

function lookOf({ fill, isDiscard }: RulerStrip['tubes'][number]): StripLook {
  if (fill === 'lost' || fill === 'empty') return 'lostTube'
  return isDiscard ? 'discard' : 'tube'
}

type Stretch = { readonly seq: number; readonly from_ms: number; readonly to_ms: number }

/** The part of a band beyond its limit; of one that is still on, as far as the ruler goes. */
function overOf(
  { seq, from_ms, to_ms = Infinity, over_ms }: RulerStrip['bands'][number],
  { bandLimit_ms }: RulerStrip,
  axis: StripAxis,
): readonly Stretch[] {
  const end = Math.min(to_ms, axis.to_ms)
  const over = Math.min(
    Number.isFinite(to_ms) ? over_ms : end - from_ms - bandLimit_ms,
    end - from_ms,
  )
  return over > 0 ? [{ seq, from_ms: end - over, to_ms: end }] : []
}

/** A ring below the ruler for each cue that the app gave. */
export function cueRings(
  { cues }: Pick<RulerStrip, 'cues'>,
  { x, from_ms, to_ms }: StripAxis,
  y: number,
): readonly StripShape[] {
  return cues
    .filter(({ at_ms }) => at_ms >= from_ms && at_ms <= to_ms)
    .map(({ seq, at_ms }): StripShape => {
      const d = `M${n(x(at_ms) - 2.5)} ${n(y)}a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0 -5 0`
      return { kind: 'path', look: 'cue', seq, d }
    })
}

/** The mark of one entry: a dot on the ruler, a sign where something went wrong, a wave where a tube was mixed. */
export function points(
  mark: StripMark,
  { x: along }: StripAxis,
  lanes: Lanes,
): readonly StripShape[] {
  const x = along(mark.at_ms)
  const { seq } = mark
  if (mark.event.type === 'tubeMixed') {
    const d = `M${n(x - 4)} ${lanes.tubes + LANE.tube + 2.5}q2 -4 4 0t4 0`
    return [{ kind: 'path', look: 'mixed', seq, d }]
  }
  if (isLoud(mark)) {
    const d = `M${n(x)} ${lanes.ruler + 1}l6 11h-12z`
    return [{ kind: 'path', look: 'trouble', seq, d }]
  }
  const y = lanes.ruler
  return [{ kind: 'line', look: 'dot', seq, x1: x, y1: y, x2: x, y2: y + 12 }]
}
