import type { Language } from '../basics/language.ts'
import { shownLanguage } from '../basics/locale.ts'
import type { Stamp } from './stamp.ts'

const two = (n: number): string => String(Math.trunc(n)).padStart(2, '0')

/** Local ISO 8601 time with its offset, whole seconds: `2026-11-25T14:03:09+01:00`. */
export function isoLocal(at: Pick<Stamp, 'at_ms' | 'offset_min'>): string {
  const shifted = new Date(at.at_ms + at.offset_min * 60_000).toISOString().slice(0, 19)
  if (at.offset_min === 0) return `${shifted}Z`
  const size = Math.abs(at.offset_min)
  return `${shifted}${at.offset_min < 0 ? '-' : '+'}${two(size / 60)}:${two(size % 60)}`
}

/** Local clock time of a stamp, `14:03:09`. */
export function clockTime(at: Pick<Stamp, 'at_ms' | 'offset_min'>): string {
  return isoLocal(at).slice(11, 19)
}

/** Time of day as a person reads it, by 24 hours, without seconds: `14:03`. */
export function timeOfDay(at: Pick<Stamp, 'at_ms' | 'offset_min'>): string {
  return clockTime(at).slice(0, 5)
}

/** Local calendar date of a stamp, `2026-11-25`. */
export function calendarDate(at: Pick<Stamp, 'at_ms' | 'offset_min'>): string {
  return isoLocal(at).slice(0, 10)
}

/** True for a day that exists, written `YYYY-MM-DD`. */
export function isDay(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false
  const day = new Date(`${text}T00:00:00Z`)
  return !Number.isNaN(day.getTime()) && day.toISOString().slice(0, 10) === text
}

// Spanish months as Unicode CLDR 45 has them abbreviated, which are those of the Real Academia Española without points.
const MONTHS: Readonly<Record<Language, readonly string[]>> = {
  en: ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'],
  es: ['ene', 'feb', 'mar', 'abr', 'may', 'jun', 'jul', 'ago', 'sept', 'oct', 'nov', 'dic'],
}

/**
 * A date as a person reads it without mistaking day for month: `1987-03-14` becomes `14 Mar 1987`, in Spanish `14 mar
 * 1987`. What is no such date comes back as it is. For eyes only; files and messages keep the first form.
 */
export function dayMonthYear(date: string, language = shownLanguage()): string {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date) ?? []
  const name = MONTHS[language][Number(month) - 1]
  return name ? `${Number(day)} ${name} ${year}` : date
}

/** Local day of a stamp as a person reads it: `25 Nov 2026`. */
export function dayOf(at: Pick<Stamp, 'at_ms' | 'offset_min'>): string {
  return dayMonthYear(calendarDate(at))
}

/** A moment as a person reads it, the same on every screen, label and print: `25 Nov 2026 23:28`. */
export function dayAndTime(at: Pick<Stamp, 'at_ms' | 'offset_min'>): string {
  return `${dayOf(at)} ${timeOfDay(at)}`
}

/** A moment to the second with where its clock stands: `25 Nov 2026 14:03:09 UTC+01:00`. For texts that are kept. */
export function fullMoment(at: Pick<Stamp, 'at_ms' | 'offset_min'>): string {
  return `${dayOf(at)} ${clockTime(at)} ${offsetText(at)}`
}

/** `UTC+01:00` */
export function offsetText({ offset_min }: Pick<Stamp, 'offset_min'>): string {
  const size = Math.abs(offset_min)
  return `UTC${offset_min < 0 ? '-' : '+'}${two(size / 60)}:${two(size % 60)}`
}

/** The same of a local time as forms and files have it, `2026-11-25T23:28`; what is no such time stays as it is. */
export function dayAndTimeOf(local: string): string {
  const [day = '', time = ''] = local.split('T')
  return `${dayMonthYear(day)} ${time}`.trim()
}

/** A length of time as a person reads it on a clock: `0:07`, `1:35`, `1:02:05`. Parts of a second are dropped. */
export function minutesSeconds(length_ms: number): string {
  if (!Number.isFinite(length_ms)) return '-:--'
  const s = Math.max(0, Math.floor(length_ms / 1000))
  const hours = Math.floor(s / 3600)
  const rest = `${hours ? two((s % 3600) / 60) : Math.trunc((s % 3600) / 60)}:${two(s % 60)}`
  return hours ? `${hours}:${rest}` : rest
}
