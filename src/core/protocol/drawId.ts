/**
 * The number of a draw, `D7-20261125-0003`: the device's prefix, the day, and a count within that day. Only capital
 * letters, digits and hyphens, all of which Code 128 can hold and a person can read out.
 */
export interface DrawId {
  readonly prefix: string
  /** `20261125` */
  readonly day: string
  /** Four digits that were counted, or eight drawn by lot where nothing could be stored. */
  readonly counter: string
}

const DRAW_ID = /^(?<prefix>[A-Z0-9]{2,4})-(?<day>\d{8})-(?<counter>\d{4}|\d{8})$/
const PRINTABLE = /^[A-Z0-9-]{1,40}$/
const COUNTED_digits = 4
const BY_LOT_digits = 8
/** The highest number that is counted within one day. */
export const MOST_COUNTED = 10 ** COUNTED_digits - 1

/** True for two to four capital letters and digits: what keeps the numbers of devices apart. */
export function isDevicePrefix(text: string): boolean {
  return /^[A-Z0-9]{2,4}$/.test(text)
}

/** True for what can stand on a label as text and as bars. Ids of other makes may be printable without being ours. */
export function isPrintableId(text: string): boolean {
  return PRINTABLE.test(text)
}

/** The parts of one of our numbers, or `undefined` for anything else. */
export function readDrawId(text: string): DrawId | undefined {
  const { prefix, day, counter } = DRAW_ID.exec(text)?.groups ?? {}
  return prefix && day && counter ? { prefix, day, counter } : undefined
}

/** The count of a number that was counted; `undefined` for one drawn by lot and for what is no number of ours. */
export function countOf(text: string): number | undefined {
  const counter = readDrawId(text)?.counter
  return counter?.length === COUNTED_digits ? Number(counter) : undefined
}

/** True for what can be the last number of a day: 0 before the first, and never beyond the four digits. */
export function isCount(value: unknown): value is number {
  return typeof value === 'number' && Number.isInteger(value) && value >= 0 && value <= MOST_COUNTED
}

/**
 * A number by count.
 * @param day `2026-11-25`
 * @throws RangeError for a count outside 1 to 9999 or a prefix that cannot be printed.
 */
export function countedDrawId(prefix: string, day: string, count: number): string {
  if (!isCount(count) || count < 1) {
    throw new RangeError(`A draw cannot have the count ${count}.`)
  }
  return written(prefix, day, String(count).padStart(COUNTED_digits, '0'))
}

/**
 * A number by lot, for when no count can be kept. It is longer than any counted one, so the two never clash; two by
 * lot on one day clash once in a hundred million. Eight digits are four pairs in Code 128, which still fit a label.
 * @param lot a whole number from 0 to 4294967295
 */
export function drawIdByLot(prefix: string, day: string, lot: number): string {
  const counter = String(lot % 10 ** BY_LOT_digits).padStart(BY_LOT_digits, '0')
  return written(prefix, day, counter)
}

function written(prefix: string, day: string, counter: string): string {
  if (!isDevicePrefix(prefix)) throw new RangeError(`"${prefix}" is no device prefix.`)
  return `${prefix}-${day.replaceAll('-', '')}-${counter}`
}
