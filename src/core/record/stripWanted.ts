import type { Wanted } from './layLabels.ts'
import type { RulerStrip, StripMark } from './rulerStrip.ts'
import type { StripAxis } from './stripAxis.ts'
import {
  bandWords,
  correctionText,
  markText,
  needleText,
  pressureText,
  tubeText,
  type StripWords,
} from './stripWords.ts'

/** A word for each tube, where it went on. */
export function tubeWords(
  { tubes }: RulerStrip,
  { x }: StripAxis,
  words: StripWords,
): readonly Wanted[] {
  return tubes.map((tube) => ({
    seq: tube.seq,
    x: x(tube.from_ms),
    text: tubeText(tube, words.strip),
    isLoud: tube.fill !== 'full' && !tube.isDiscard,
  }))
}

/** Words of everything but the tubes. What ends a bar is told where the bar begins, but for the needle. */
export function otherWords(
  strip: RulerStrip,
  { x }: StripAxis,
  words: StripWords,
): readonly Wanted[] {
  const texts = words.strip
  const word = (bar: { seq: number; from_ms: number }, text: string, isLoud = false): Wanted => ({
    seq: bar.seq,
    x: x(bar.from_ms),
    text,
    isLoud,
  })
  return [
    ...strip.bands.map((band) =>
      word(band, bandWords(band, strip.bandLimit_ms, texts), band.over_ms > 0),
    ),
    ...strip.needles.map((needle) => word(needle, needleText(needle, texts))),
    ...strip.pressures.map((each) => word(each, pressureText(each, texts))),
    ...strip.marks
      .filter(isWorded)
      .map((mark) =>
        word({ ...mark, from_ms: mark.at_ms }, markText(mark, strip, words), isLoud(mark)),
      ),
    ...strip.corrections.map((each) =>
      word({ seq: 0, from_ms: each.from_ms }, correctionText(each, texts), true),
    ),
  ]
}

const isWorded = ({ inBar, event: { type } }: StripMark): boolean =>
  type === 'needleOut' || (inBar === undefined && type !== 'tubeMixed')

const LOUD: ReadonlySet<string> = new Set([
  'exceptionRaised',
  'flagRaised',
  'tubeSwapped',
  'consentRefused',
  'clockStepped',
  'awayNoticed',
  'entryUndone',
])
/** Something that went wrong, was undone, or is not certain. */
export const isLoud = ({ event: { type } }: StripMark): boolean => LOUD.has(type)
