import type { Flag, Outcome } from '../protocol/events.ts'
import type { MarkedType } from './markedEvents.ts'

/** What stands for itself in the words of the note, or is told with its tube. */
type Worded = 'exceptionRaised' | 'flagRaised' | 'tubeHandled' | 'drawClosed'

/** The words on the ruler of a draw. All are short: they stand beside a mark. */
export interface StripTexts {
  /** Head of the file, with `{drawId}` and `{day}`. */
  readonly title: string
  /** What the rings are. */
  readonly cueKey: string
  /** What the picture is, with when it begins and ends. */
  readonly about: string
  readonly marks: Readonly<Record<Exclude<MarkedType, Worded>, string>>
  /** `{what}` is an exception or an outcome in its words. */
  readonly ended: string
  readonly closed: string
  readonly outcomes: Readonly<Record<Outcome | 'notClosed', string>>
  /** A mark about one tube. */
  readonly ofTube: string
  readonly flags: Readonly<Record<Flag, string>>
  readonly band: string
  readonly bandOver: string
  readonly search: string
  readonly needle: string
  readonly needleAgain: string
  readonly lancet: string
  readonly pressed: string
  /** A bar whose end nobody recorded. */
  readonly open: string
  readonly range: string
  readonly tube: string
  readonly discard: string
  readonly tubeEnd: Readonly<Record<'short' | 'empty' | 'lost' | 'open', string>>
  readonly corrected: Readonly<Record<'ahead' | 'behind', string>>
}
