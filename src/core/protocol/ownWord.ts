import { age_years } from '../bloodLimit/age.ts'
import { limit, type LimitKey } from '../policy/policy.ts'
import { calendarDate } from '../time/format.ts'
import type { DrawState } from './state.ts'

type Opened = Pick<DrawState, 'opened' | 'openedAt'>

const isYounger = ({ opened, openedAt }: Opened, key: LimitKey): boolean => {
  const years = age_years(opened.patient.birthDate, calendarDate(openedAt))
  return years !== undefined && years < limit(opened.policy, key)
}

/** Of so young a patient nobody believes a record that says they said their own name and birth date. */
export const tooYoungForOwnName = (s: Opened): boolean => isYounger(s, 'ownName_y')

/** A plain "consent given" of so young a patient does not tell who agreed. */
export const tooYoungToAgree = (s: Opened): boolean => isYounger(s, 'ownConsent_y')
