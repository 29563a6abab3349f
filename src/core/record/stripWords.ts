import { fillText } from '../basics/fillText.ts'
import type { Elapsed } from '../time/course.ts'
import { minutesSeconds } from '../time/format.ts'
import { shownText } from '../text/shownText.ts'
import type { NoteTemplate } from './noteTemplate.ts'
import type {
  RulerStrip,
  StripBand,
  StripCorrection,
  StripMark,
  StripNeedle,
  StripTube,
} from './rulerStrip.ts'
import type { StripTexts } from './stripTexts.ts'

/** The ruler's own words, and the note's for what has a code. */
export interface StripWords {
  readonly strip: StripTexts
  readonly note: Pick<NoteTemplate, 'exceptions' | 'words'>
}

/** The longest name of a tube that stands beside a mark. */
const NAME_MOST = 24

/** What stands beside a mark that is in no bar. */
export function markText({ event }: StripMark, strip: RulerStrip, words: StripWords): string {
  const { strip: texts, note } = words
  switch (event.type) {
    case 'exceptionRaised':
      return note.exceptions[event.kind] ?? event.kind
    case 'exceptionEnded':
      return fillText(texts.ended, { what: note.exceptions[event.kind] ?? event.kind })
    case 'flagRaised':
      return texts.flags[event.flag] ?? event.flag
    case 'drawClosed':
      return fillText(texts.closed, { what: texts.outcomes[event.outcome] })
    case 'tubeHandled':
      return ofTube(event.tubeId, note.words.handled[event.how], strip, texts)
    case 'tubeOn':
    case 'tubeOff':
    case 'tubeMixed':
    case 'tubeSwapped':
    case 'tubeFell':
      return ofTube(event.tubeId, texts.marks[event.type], strip, texts)
    default:
      return texts.marks[event.type]
  }
}

function ofTube(
  id: string,
  what: string,
  { tubes, tubeNames }: RulerStrip,
  texts: StripTexts,
): string {
  const tube = tubes.find(({ tubeId }) => tubeId === id)
  const name = tube ? bareTube(tube, texts) : shownName(tubeNames.get(id) ?? id)
  return fillText(texts.ofTube, { tube: name, what })
}

function bareTube(tube: StripTube, texts: StripTexts): string {
  const closure = shownName(tube.closure || tube.name)
  return fillText(tube.isDiscard ? texts.discard : texts.tube, { place: tube.place, closure })
}

/** `2 gold`, and how it ended where that is not full. */
export function tubeText(tube: StripTube, texts: StripTexts): string {
  const bare = bareTube(tube, texts)
  if (tube.fill === undefined) return `${bare}, ${texts.tubeEnd.open}`
  return tube.fill === 'full' ? bare : `${bare}, ${texts.tubeEnd[tube.fill]}`
}

/** `tourniquet 1:09, over 1:00`. */
export function bandWords(band: StripBand, limit_ms: number, texts: StripTexts): string {
  const length = band.length ? lengthText(band.length, texts) : texts.open
  if (band.over_ms > 0) {
    return fillText(texts.bandOver, { length, limit: minutesSeconds(limit_ms) })
  }
  return fillText(band.isSearch ? texts.search : texts.band, { length })
}

function lengthText({ least_ms, most_ms }: Elapsed, texts: StripTexts): string {
  const least = minutesSeconds(least_ms)
  const most = minutesSeconds(most_ms)
  return least === most ? most : fillText(texts.range, { least, most })
}

export function needleText({ attempt, isLancet }: StripNeedle, texts: StripTexts): string {
  if (isLancet) return fillText(texts.lancet, { attempt })
  return attempt === 1 ? texts.needle : fillText(texts.needleAgain, { attempt })
}

export function pressureText(
  { from_ms, to_ms }: RulerStrip['pressures'][number],
  texts: StripTexts,
): string {
  const length = to_ms === undefined ? texts.open : minutesSeconds(to_ms - from_ms)
  return fillText(texts.pressed, { length })
}

export function correctionText({ by_ms }: StripCorrection, texts: StripTexts): string {
  const text = by_ms < 0 ? texts.corrected.ahead : texts.corrected.behind
  return fillText(text, { length: minutesSeconds(Math.abs(by_ms)) })
}

function shownName(name: string): string {
  const shown = [...shownText(name).replaceAll('\n', ' ')]
  return shown.length > NAME_MOST ? `${shown.slice(0, NAME_MOST - 1).join('')}…` : shown.join('')
}
