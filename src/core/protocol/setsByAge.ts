import { age_years } from '../bloodLimit/age.ts'
import { USUAL_SETS, type UsualSet } from '../order/usualSets.ts'
import { gaugeAdvice } from '../plan/gaugeAdvice.ts'
import { calendarDate } from '../time/format.ts'
import type { CommandKey } from './commands.ts'
import type { DrawState } from './state.ts'

/**
 * The sets that are offered, those first that the age and the vein speak for where these want a winged one: a child, a
 * vein of the hand. For anybody else they stand as they are.
 */
export function setsByAge(s: DrawState, keys: readonly CommandKey[]): readonly CommandKey[] {
  const age_y = age_years(s.opened.patient.birthDate, calendarDate(s.openedAt)) ?? 0
  const { kind, gauges } = gaugeAdvice({ vein: s.puncture.vein, age_y })
  if (kind !== 'winged') return keys
  const rank = (key: CommandKey): number => {
    const set = key.startsWith('chooseSet:') && USUAL_SETS[key.slice(10) as UsualSet]
    if (!set) return Infinity
    const place = gauges.indexOf(set.gauge)
    if (set.kind !== kind) return gauges.length + 1
    return place >= 0 ? place : gauges.length
  }
  return [...keys].sort((a, b) => (rank(a) === rank(b) ? 0 : rank(a) - rank(b)))
}
