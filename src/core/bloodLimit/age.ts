const DATE = /^(\d{4})-(\d{2})-(\d{2})$/

/** Days since 1970-01-01 of a `YYYY-MM-DD` date; `undefined` for anything that is not a real date. */
export function dayNumber(date: string): number | undefined {
  const match = DATE.exec(date)
  if (!match) return undefined
  const [year, month, day] = match.slice(1).map(Number)
  const ms = Date.UTC(year ?? 0, (month ?? 0) - 1, day)
  return new Date(ms).toISOString().slice(0, 10) === date ? ms / 86_400_000 : undefined
}

/** Age in days; `undefined` when a date cannot be read or lies the wrong way round. */
export function age_days(birthDate: string, today: string): number | undefined {
  const born = dayNumber(birthDate)
  const now = dayNumber(today)
  return born === undefined || now === undefined || now < born ? undefined : now - born
}

/** Whole years lived, counted by birthdays: 17 on the day before the eighteenth. */
export function age_years(birthDate: string, today: string): number | undefined {
  if (age_days(birthDate, today) === undefined) return undefined
  const years = Number(today.slice(0, 4)) - Number(birthDate.slice(0, 4))
  return today.slice(5) < birthDate.slice(5) ? years - 1 : years
}
