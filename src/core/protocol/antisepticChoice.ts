import { allergiesOf, type AntisepticAllergy } from '../order/order.ts'
import { age_months } from '../bloodLimit/age.ts'
import { calendarDate } from '../time/format.ts'
import { limit, type LimitKey } from '../policy/policy.ts'
import { ANTISEPTICS, type Antiseptic } from './antiseptics.ts'
import { answersOf } from './facts.ts'
import type { DrawState } from './state.ts'

/** Which skin antiseptic this draw takes, which it must not, and how long each has to dry. */

const HOLDS_ALCOHOL: readonly Antiseptic[] = ['alcohol', 'chlorhexidineAlcohol']

const NOT_WITH: Readonly<Record<AntisepticAllergy, readonly Antiseptic[]>> = {
  none: [],
  chlorhexidine: ['chlorhexidineAlcohol'],
  iodine: ['povidoneIodine'],
  alcohol: HOLDS_ALCOHOL,
  other: [],
}

const DRYING: Readonly<Record<Antiseptic, LimitKey>> = {
  alcohol: 'drying_s',
  chlorhexidineAlcohol: 'dryingChlorhexidine_s',
  povidoneIodine: 'dryingIodine_s',
  alcoholFree: 'dryingAlcoholFree_s',
}

export const hasCulture = (s: DrawState): boolean =>
  s.plan.tubes.some(({ role }) => role === 'culture')

/** A test of the plan, such as ethanol, wants skin that no alcohol was on (handbook pages of several laboratories). */
export const wantsNoAlcohol = (s: DrawState): boolean =>
  s.plan.tubes.some(({ handling }) => handling.includes('noAlcohol'))

const allergies = (s: DrawState): readonly AntisepticAllergy[] =>
  allergiesOf(answersOf(s).antisepticAllergy)

/** An allergy to something that has no name here: no antiseptic is the usual one, and whoever cleans says which. */
export const mustBeNamed = (s: DrawState): boolean => allergies(s).includes('other')

/**
 * "Use with care in premature infants or infants under 2 months of age": irritation or burns (the drug label of
 * chlorhexidine gluconate as a public label database has it).
 */
export const isForCareOnly = (s: DrawState, antiseptic: Antiseptic): boolean => {
  const months = age_months(s.opened.patient.birthDate, calendarDate(s.openedAt))
  return antiseptic === 'chlorhexidineAlcohol' && months !== undefined && months < 2
}

/** Not for this patient, or not for what is ordered. */
export function isUnfit(s: DrawState, antiseptic: Antiseptic): boolean {
  return (
    allergies(s).some((allergy) => NOT_WITH[allergy].includes(antiseptic)) ||
    (wantsNoAlcohol(s) && HOLDS_ALCOHOL.includes(antiseptic))
  )
}

/**
 * The one to clean with where nobody names another: 70 % alcohol, for cultures chlorhexidine in alcohol (preferred for
 * blood cultures by the guidelines, second-hand), for ethanol one free of alcohol; the next that is fit otherwise.
 */
export function antisepticFor(s: DrawState): Antiseptic {
  const order: readonly Antiseptic[] = wantsNoAlcohol(s)
    ? ['alcoholFree', 'povidoneIodine']
    : hasCulture(s)
      ? ['chlorhexidineAlcohol', 'povidoneIodine', 'alcohol', 'alcoholFree']
      : ANTISEPTICS
  const fit = order.filter((antiseptic) => !isUnfit(s, antiseptic))
  return fit.find((antiseptic) => !isForCareOnly(s, antiseptic)) ?? fit[0] ?? 'alcoholFree'
}

/** Seconds the skin has to dry after what it was cleaned with; in a draw from before that was recorded, alcohol. */
export function dryingNeeded_s(s: DrawState): number {
  return limit(s.opened.policy, DRYING[s.puncture.cleanedWith ?? 'alcohol'])
}
