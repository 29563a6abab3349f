import { age_days } from '../bloodLimit/age.ts'
import type { AgeTold } from '../order/order.ts'

/**
 * Whether a newborn is under a day old as far as the birth date tells, both days `YYYY-MM-DD`; `undefined` on the day
 * after the birth, when it may be either, and where the dates tell nothing.
 */
export function ageByBirthDate(birthDate: string, today: string): AgeTold | undefined {
  const days = age_days(birthDate, today)
  if (days === undefined || days === 1) return undefined
  return days === 0 ? 'underDay' : 'dayOrMore'
}
