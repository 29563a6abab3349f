import { age_years } from '../bloodLimit/age.ts'
import { limit, type LimitKey } from '../policy/policy.ts'
import { calendarDate } from '../time/format.ts'
import type { DrawState } from './state.ts'

/** Below an age of the policy, years, when the draw was opened; false where the birth date tells nothing. */
export function isYounger(
  { opened, openedAt }: Pick<DrawState, 'opened' | 'openedAt'>,
  key: LimitKey & `${string}_y`,
): boolean {
  const years = age_years(opened.patient.birthDate, calendarDate(openedAt))
  return years !== undefined && years < limit(opened.policy, key)
}
