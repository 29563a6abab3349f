import { isDay } from '../../core/time/format.ts'

/** A day as it is typed, part by part. */
export interface DayParts {
  readonly day: string
  /** `01` to `12`, or nothing. */
  readonly month: string
  readonly year: string
}

export const EMPTY_DAY: DayParts = { day: '', month: '', year: '' }

/** `1980-05-31` and what is typed of it so far, `1980--31`, in parts. */
export function splitDay(day: string): DayParts {
  const [year = '', month = '', date = ''] = day.split('-')
  return { day: date.replace(/^0(?=\d)/, ''), month, year }
}

/** The parts as one text, a day written `YYYY-MM-DD` once they are one; nothing for nothing. */
export function joinDay({ day, month, year }: DayParts): string {
  const parts = { day: day.trim(), month, year: year.trim() }
  if (parts.day === '' && parts.month === '' && parts.year === '') return ''
  return `${parts.year}-${parts.month}-${/^\d$/.test(parts.day) ? `0${parts.day}` : parts.day}`
}

/**
 * A day as it is copied from elsewhere, `1980-05-31` or `31 May 1980`; `undefined` for anything whose day and month
 * could be mistaken for each other.
 * @param months the names of the twelve months
 */
export function dayOf(text: string, months: readonly string[]): string | undefined {
  const plain = text.trim()
  if (isDay(plain)) return plain
  const [, day = '', name = '', year = ''] = /^(\d{1,2})\.? (\p{L}+),? (\d{4})$/u.exec(plain) ?? []
  const index = months.findIndex(
    (month) => name.length > 2 && month.toLowerCase().startsWith(name.toLowerCase()),
  )
  if (index < 0) return undefined
  const made = joinDay({ day, month: String(index + 1).padStart(2, '0'), year })
  return isDay(made) ? made : undefined
}
