import { shownNumber } from '../basics/shownNumber.ts'
import { ownValue } from '../basics/ownValue.ts'
import type { Collector } from '../order/order.ts'
import { shownText } from '../text/shownText.ts'
import { calendarDate, clockTime, dayOf, minutesSeconds, offsetText } from '../time/format.ts'
import type { Elapsed } from '../time/course.ts'
import type { Stamp } from '../time/stamp.ts'
import type { NoteTemplate } from './noteTemplate.ts'
import type { NoteWordCode, NoteWordKind } from './noteWordCodes.ts'

/** Field values by name; `undefined` is a fact that the log does not hold. */
export type Fields = Readonly<Record<string, string | undefined>>

/**
 * Fills the fields in braces; what cannot be seen in one stands as its code. A missing one reads `missing`; a text all
 * of whose fields are missing does as a whole.
 */
export function fill(
  text: string,
  fields: Fields,
  missing: string,
): { readonly text: string; readonly missing: boolean; readonly empty: boolean } {
  const names = [...text.matchAll(/\{(\w+)\}/g)].map((match) => match[1] ?? '')
  const gone = names.filter((name) => fields[name] === undefined)
  if (names.length > 0 && gone.length === names.length) {
    return { text: missing, missing: true, empty: true }
  }
  const filled = text.replace(/\{(\w+)\}/g, (_all, name: string) =>
    shownText(fields[name] ?? missing),
  )
  return { text: filled, missing: gone.length > 0, empty: false }
}

/** The words of one template, with the day and offset that times are told against. */
export interface NoteWords {
  readonly template: NoteTemplate
  readonly word: <K extends NoteWordKind>(kind: K, code: NoteWordCode<K>) => string
  /** The word for what may be a code or, in an older log, a text of its own: that stands as it is. */
  readonly orOwn: (kind: 'endedBy' | 'planRevised' | 'endReason', code: string) => string
  /** A sentence from `words` with its fields filled. */
  readonly say: <K extends NoteWordKind>(kind: K, code: NoteWordCode<K>, fields: Fields) => string
  readonly at: (stamp: Stamp | undefined) => string | undefined
  /** Name of a test of the catalogue by its code. */
  readonly testName: (code: string) => string
}

export type TestName = (code: string) => string

export function noteWords(template: NoteTemplate, day: Stamp, testName: TestName): NoteWords {
  const word: NoteWords['word'] = (kind, code) => template.words[kind][code]
  const say: NoteWords['say'] = (kind, code, fields) =>
    fill(word(kind, code), fields, template.notRecorded).text
  const orOwn: NoteWords['orOwn'] = (kind, code) => {
    const words: Readonly<Record<string, string | undefined>> = template.words[kind]
    return ownValue(words, code) ?? code
  }
  return { template, word, orOwn, say, at: (stamp) => stamp && timeText(stamp, day, say), testName }
}

/** `09:01:40`; with its date or offset when that is not the day's own (past midnight, summer time). */
function timeText(at: Stamp, day: Stamp, say: NoteWords['say']): string {
  const clock = clockTime(at)
  const isSameDay = calendarDate(at) === calendarDate(day)
  const time = isSameDay ? clock : say('time', 'otherDay', { time: clock, date: dayOf(at) })
  return at.offset_min === day.offset_min
    ? time
    : say('time', 'otherOffset', { time, offset: offsetText(at) })
}

/** A length of time; two when a clock that was set leaves it open. */
export function lengthText({ least_ms, most_ms }: Elapsed, words: NoteWords): string {
  if (least_ms === most_ms) return minutesSeconds(most_ms)
  const most = Number.isFinite(most_ms) ? minutesSeconds(most_ms) : words.template.notRecorded
  return words.say('band', 'range', { least: minutesSeconds(least_ms), most })
}

/** `11.7`: at most two decimals, no trailing zeros. */
export function amount(value: number): string {
  return shownNumber(Math.round(value * 100) / 100)
}

/** Texts joined, or `undefined` when there are none. */
export function joined(texts: readonly string[], by = '; '): string | undefined {
  return texts.length > 0 ? texts.join(by) : undefined
}

/** `Robin Example (RE)`, or what of it there is. */
export function personText({ id, name, initials }: Collector): string {
  const parts = [name.trim(), initials.trim() && `(${initials.trim()})`].filter(Boolean)
  return parts.join(' ') || id
}
