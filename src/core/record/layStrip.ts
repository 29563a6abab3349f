import { fillText } from '../basics/fillText.ts'
import { clockTime } from '../time/format.ts'
import { layLabels, type LaidWord } from './layLabels.ts'
import type { RulerStrip } from './rulerStrip.ts'
import { stripAxis } from './stripAxis.ts'
import type { StripDrawing, StripShape } from './stripDrawing.ts'
import { bars, cueRings, LANE, points, rulerShapes } from './stripShapes.ts'
import { otherWords, tubeWords } from './stripWanted.ts'
import type { StripWords } from './stripWords.ts'

const WORD = 15
const ROW = 19

/**
 * Draws the ruler: the time on top, below it the tubes, the needle with the pressure after it, the band, and the words.
 * @param as `width` in the units of the drawing; without words for a picture that stands beside a sentence; with the
 * cues that were given where asked for.
 */
export function layStrip(
  strip: RulerStrip,
  words: StripWords,
  as: { readonly width: number; readonly hasWords: boolean; readonly hasCues?: boolean },
): StripDrawing {
  const axis = stripAxis(strip, as.width)
  const above = as.hasWords ? layLabels(tubeWords(strip, axis, words), as.width, WORD) : []
  const below = as.hasWords ? layLabels(otherWords(strip, axis, words), as.width, WORD) : []
  const ruler = as.hasWords ? 18 : 2
  const tubes = ruler + 14 + ROW * rowsOf(above)
  const needle = tubes + LANE.tube + 5
  const band = needle + LANE.needle + 5
  const foot = band + LANE.band + 4
  const lanes = { ruler, tubes, needle, band, foot }
  return {
    width: as.width,
    height: foot + ROW * rowsOf(below) + 4,
    shapes: [
      ...above.map((word) => lead(word, tubes - 2 - ROW * word.row, tubes)),
      ...below.map((word) => lead(word, ruler, foot + ROW * word.row + 12)),
      ...rulerShapes(strip, axis, ruler, as),
      ...bars(strip, axis, lanes),
      ...(as.hasCues ? cueRings(strip, axis, foot - 1) : []),
      ...strip.marks.flatMap((mark) => points(mark, axis, lanes)),
      ...above.map((word) => wordShape(word, tubes - 5 - ROW * word.row)),
      ...below.map((word) => wordShape(word, foot + ROW * word.row + 14)),
    ],
    about: aboutStrip(strip, words),
  }
}

/** What is on the ruler, in the order in which it began. */
function aboutStrip(strip: RulerStrip, words: StripWords): string {
  const axis = stripAxis(strip, 1)
  const said = [...tubeWords(strip, axis, words), ...otherWords(strip, axis, words)]
  const at = (since_ms: number): string =>
    clockTime({ ...strip.openedAt, at_ms: strip.openedAt.at_ms + since_ms })
  return fillText(words.strip.about, {
    from: at(axis.from_ms),
    to: at(axis.to_ms),
    marks: [...said]
      .sort((a, b) => a.seq - b.seq)
      .map(({ text }) => text)
      .join('; '),
  })
}

const rowsOf = (laid: readonly LaidWord[]): number =>
  laid.reduce((most, { row }) => Math.max(most, row + 1), 0)

const lead = ({ seq, x }: LaidWord, y1: number, y2: number): StripShape => ({
  kind: 'line',
  look: 'lead',
  seq,
  x1: x,
  y1,
  x2: x,
  y2,
})

const wordShape = ({ left, text, isLoud: loud }: LaidWord, y: number): StripShape => ({
  kind: 'text',
  look: loud ? 'loud' : 'word',
  x: left + 3,
  y,
  middle: false,
  text,
})
