import { fillText } from '../basics/fillText.ts'
import type { RulerStrip } from '../record/rulerStrip.ts'
import type { StripDrawing, StripShape } from '../record/stripDrawing.ts'
import { bars, cueRings, LANE, points } from '../record/stripShapes.ts'
import type { StripAxis } from '../record/stripAxis.ts'
import { minutesSeconds, timeOfDay } from '../time/format.ts'

/** Words on the picture of a day. */
export interface DayTexts {
  /** `{n}` draws, `{from}` and `{to}` about the needle. */
  readonly pictureAbout: string
  readonly needleIn: string
  /** Draws that have no needle: `{ids}`. */
  readonly without: string
}

/** Further from the needle than this nothing is drawn: the course about it is what can be compared. */
const BEFORE_ms = 120_000
const AFTER_ms = 480_000
const MINUTE_ms = 60_000

const LEFT = 176
const RIGHT = 12
const HEAD = 26
const ROW = 20 + LANE.tube + LANE.needle + LANE.band + 20

/**
 * Draws of a day under each other, each from its first needle in, by their numbers and without a name.
 * @param width in the units of the drawing
 */
export function layDay(
  strips: readonly RulerStrip[],
  texts: DayTexts,
  width: number,
): StripDrawing {
  const rows = strips
    .flatMap((strip) => {
      const [needle] = strip.needles
      return needle ? [{ strip, zero_ms: needle.from_ms }] : []
    })
    .sort((a, b) => a.strip.openedAt.at_ms - b.strip.openedAt.at_ms)
  const without = strips.filter(({ needles }) => needles.length === 0)
  const scale = (width - LEFT - RIGHT) / (BEFORE_ms + AFTER_ms)
  const x = (since_ms: number): number =>
    LEFT + (Math.min(AFTER_ms, Math.max(-BEFORE_ms, since_ms)) + BEFORE_ms) * scale
  const foot = HEAD + rows.length * ROW
  const values = {
    n: rows.length,
    from: `-${minutesSeconds(BEFORE_ms)}`,
    to: minutesSeconds(AFTER_ms),
  }
  const missing =
    without.length > 0
      ? [fillText(texts.without, { ids: without.map(({ drawId }) => drawId).join(', ') })]
      : []
  return {
    width,
    height: foot + (missing.length > 0 ? 26 : 6),
    shapes: [
      ...minutes(x, foot, texts.needleIn),
      ...rows.flatMap(({ strip, zero_ms }, i) =>
        rowShapes(strip, zero_ms, HEAD + i * ROW, (at_ms) => x(at_ms - zero_ms)),
      ),
      ...missing.map((said): StripShape => text('word', 3, foot + 18, said)),
    ],
    about: [fillText(texts.pictureAbout, values), ...missing].join(' '),
  }
}

const text = (
  look: 'word' | 'time',
  x: number,
  y: number,
  said: string,
): Extract<StripShape, { kind: 'text' }> => ({
  kind: 'text',
  look,
  x,
  y,
  middle: false,
  text: said,
})

/** One line for each minute about the needle, with its length of time. */
function minutes(
  x: (since_ms: number) => number,
  foot: number,
  needleIn: string,
): readonly StripShape[] {
  const shapes: StripShape[] = []
  for (let at = -BEFORE_ms; at <= AFTER_ms; at += MINUTE_ms) {
    const look = at === 0 ? 'minute' : 'lead'
    shapes.push({ kind: 'line', look, x1: x(at), y1: HEAD - 8, x2: x(at), y2: foot })
    const length = `${at < 0 ? '-' : ''}${minutesSeconds(Math.abs(at))}`
    const said = at === 0 ? needleIn : length
    // The last would stand beyond the edge.
    if (at < AFTER_ms) shapes.push({ ...text('time', x(at), 12, said), middle: true })
  }
  return shapes
}

function rowShapes(
  strip: RulerStrip,
  zero_ms: number,
  top: number,
  x: (at_ms: number) => number,
): readonly StripShape[] {
  const from_ms = zero_ms - BEFORE_ms
  const to_ms = zero_ms + AFTER_ms
  const axis: StripAxis = { x, folds: [], ticks: [], from_ms, to_ms }
  const near = <B extends { readonly from_ms: number; readonly to_ms?: number }>(
    all: readonly B[],
  ): readonly B[] => all.filter((bar) => bar.from_ms <= to_ms && (bar.to_ms ?? to_ms) >= from_ms)
  const shown: RulerStrip = {
    ...strip,
    bands: near(strip.bands),
    needles: near(strip.needles),
    pressures: near(strip.pressures),
    tubes: near(strip.tubes),
  }
  const ruler = top + 4
  const tubes = ruler + 16
  const needle = tubes + LANE.tube + 5
  const band = needle + LANE.needle + 4
  const lanes = { ruler, tubes, needle, band, foot: band + LANE.band }
  const at = { ...strip.openedAt, at_ms: strip.openedAt.at_ms + zero_ms }
  return [
    { kind: 'line', look: 'axis', x1: 0, y1: ruler, x2: x(to_ms), y2: ruler },
    text('word', 3, tubes + 13, strip.drawId),
    text('time', 3, tubes + 30, timeOfDay(at)),
    ...bars(shown, axis, lanes),
    ...cueRings(strip, axis, lanes.foot + 4),
    ...strip.marks
      .filter(({ at_ms }) => at_ms >= from_ms && at_ms <= to_ms)
      .flatMap((mark) => points(mark, axis, lanes)),
  ]
}
