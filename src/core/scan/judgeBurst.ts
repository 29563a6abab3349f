import { looksLikeSpecimenNumber } from '../protocol/specimenNumber.ts'

/** A scanner types faster than any hand: that many characters, each that close to the next, with Enter behind them. */
export const FAST_GAP_ms = 50
const FAST_LEAST_n = 4

/** Characters that a site's scanner is set to send before and behind each code, so that it is known for certain. */
export interface ScanMarks {
  readonly prefix: string
  readonly suffix: string
}

export const NO_MARKS: ScanMarks = { prefix: '', suffix: '' }

/**
 * True for what a scanner may send before or behind a code: up to four signs that are neither letters nor digits nor
 * spaces, for those stand in codes or are choices.
 */
export function isScanMark(text: string): boolean {
  return /^[!-/:-@[-`{-~]{0,4}$/.test(text)
}

/** Characters that came together, and how they ended. */
export interface Burst {
  /** As the layout of the machine writes it. */
  readonly text: string
  /** As a keyboard of the United States would have written it. */
  readonly placed: string
  /** The longest time between two strokes, that before the end sign among them, ms. */
  readonly longestGap_ms: number
  readonly end: 'terminator' | 'quiet' | 'broken'
}

export type Verdict =
  | { readonly kind: 'scan'; readonly text: string; readonly by: 'marks' | 'form' | 'speed' }
  /** It may have been a scan: nobody but the person can tell. */
  | { readonly kind: 'unsure'; readonly text: string }
  | { readonly kind: 'nothing' }

/**
 * Tells a scan from keys by more than speed: the site's marks, the form of our own labels, or characters typed as no
 * hand can with Enter or Tab behind them. Anything else of two characters and more, or with an end sign, is asked.
 */
export function judgeBurst(burst: Burst, marks: ScanMarks): Verdict {
  const written = [burst.text.trim(), burst.placed.trim()]
  const marked = hasMarks(marks)
    ? written.map((text) => withoutMarks(text, marks)).find((text) => text !== undefined)
    : undefined
  if (marked !== undefined) return { kind: 'scan', text: marked, by: 'marks' }
  const label = written.find(looksLikeSpecimenNumber)
  if (label !== undefined) return { kind: 'scan', text: label, by: 'form' }
  const [text = ''] = written
  const fast =
    burst.end === 'terminator' &&
    text.length >= FAST_LEAST_n &&
    burst.longestGap_ms <= FAST_GAP_ms &&
    !hasMarks(marks)
  if (fast) return { kind: 'scan', text, by: 'speed' }
  const doubtful = burst.text.length >= 2 || burst.end !== 'quiet'
  return doubtful && text !== '' ? { kind: 'unsure', text } : { kind: 'nothing' }
}

/** The code is complete although no end sign has come: the site's scanner has sent both its marks. */
export function isComplete(burst: Pick<Burst, 'text' | 'placed'>, marks: ScanMarks): boolean {
  if (!marks.prefix || !marks.suffix) return false
  return [burst.text, burst.placed].some((text) => withoutMarks(text, marks) !== undefined)
}

const hasMarks = ({ prefix, suffix }: ScanMarks): boolean => prefix + suffix !== ''

function withoutMarks(text: string, { prefix, suffix }: ScanMarks): string | undefined {
  const bare = text.slice(prefix.length, text.length - suffix.length)
  const fits = text.startsWith(prefix) && text.endsWith(suffix)
  return fits && bare.length > 0 && text === prefix + bare + suffix ? bare : undefined
}
