/** What a person could read on the screen about a fault, and how long after it. */
export interface Seen {
  readonly text: string | null
  readonly ms: number | null
}

/** How the alarm of the band's limit went: the first one at or after it that was truly played. */
export type BandAlarm =
  | 'not running'
  | {
      readonly heard: 'on time' | 'on the screen, on time' | 'late' | 'never'
      readonly lateness_ms: number | null
      readonly from: string
    }

export interface Lost {
  /** Confirmations that the screen took. */
  readonly confirmed: number
  /** Those of them that are in the record at the end. */
  readonly kept: number
  /** Where that was counted. */
  readonly countedIn: string
}

/** What was seen of one fault. */
export interface Outcome {
  readonly seen: Seen
  readonly lost: Lost
  readonly band: BandAlarm
  /** Whatever else must not be, in words; empty when all is well. */
  readonly wrong?: readonly string[]
}

/** A person must be able to read what is wrong within this time. */
export const SEEN_ms = 2000
/** An alarm is on time within this much of the moment it was due. */
export const ON_TIME_ms = 1000
/** A page that begins anew has this long to load its sounds and to sound an alarm that is already due. */
export const ANEW_ms = 2000
