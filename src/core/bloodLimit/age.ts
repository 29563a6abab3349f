import { isDay } from '../time/format.ts'

/** Days since 1970-01-01 of a `YYYY-MM-DD` date; `undefined` for anything that is not a real date. */
export function dayNumber(date: string): number | undefined {
  return isDay(date) ? Date.parse(`${date}T00:00:00Z`) / 86_400_000 : undefined
}

/** Age in days; `undefined` when a date cannot be read or lies the wrong way round. */
export function age_days(birthDate: string, today: string): number | undefined {
  const born = dayNumber(birthDate)
  const now = dayNumber(today)
  return born === undefined || now === undefined || now < born ? undefined : now - born
}

/** Whole months lived, counted by the day of the month; `undefined` as for the days. */
export function age_months(birthDate: string, today: string): number | undefined {
  if (age_days(birthDate, today) === undefined) return undefined
  const years = Number(today.slice(0, 4)) - Number(birthDate.slice(0, 4))
  const months = Number(today.slice(5, 7)) - Number(birthDate.slice(5, 7))
  return 12 * years + months - (today.slice(8) < birthDate.slice(8) ? 1 : 0)
}

/** Whole years lived, counted by birthdays: 17 on the day before the eighteenth. */
export function age_years(birthDate: string, today: string): number | undefined {
  if (age_days(birthDate, today) === undefined) return undefined
  const years = Number(today.slice(0, 4)) - Number(birthDate.slice(0, 4))
  return today.slice(5) < birthDate.slice(5) ? years - 1 : years
}
