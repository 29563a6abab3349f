import { isDay } from '../time/format.ts'

/** Older than anybody known. */
export const OLDEST_y = 125

export type BirthDateFault = 'notADay' | 'inFuture' | 'tooLongAgo'

/** Why a day cannot be the birth of somebody who is drawn on `today`; both `YYYY-MM-DD`. */
export function birthDateFault(birthDate: string, today: string): BirthDateFault | undefined {
  if (!isDay(birthDate)) return 'notADay'
  if (birthDate > today) return 'inFuture'
  return birthDate < `${Number(today.slice(0, 4)) - OLDEST_y}` ? 'tooLongAgo' : undefined
}
