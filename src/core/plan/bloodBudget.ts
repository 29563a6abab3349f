import { age_days, age_years } from '../bloodLimit/age.ts'
import { amountsFor, bodyVolume_mL, type Amount } from '../bloodLimit/bloodLimits.ts'
import { defined } from '../basics/defined.ts'
import type { BloodVolume, PlanNotice } from './plan.ts'
import type { PlanInput } from './planInput.ts'
import type { PlanTexts } from './planTexts.ts'
import { mL, notice } from './planWords.ts'

/** What the rules leave for this draw. */
export interface BloodBudget {
  readonly amounts: readonly Amount[]
  readonly earlier_mL: number
  /** Blood that may be taken now without passing a rule that stops, mL; `undefined` when none does. */
  readonly most_mL?: number
  readonly bodyVolume_mL?: number
}

export function bloodBudget(input: PlanInput): BloodBudget {
  const { patient, preparation, bloodLimits, today } = input
  const days = age_days(patient.birthDate, today)
  const years = age_years(patient.birthDate, today)
  const earlier_mL = preparation.earlierDraws_mL ?? 0
  if (days === undefined || years === undefined) return { amounts: [], earlier_mL }
  const amounts = amountsFor(bloodLimits, days, years, patient.weight_kg)
  const stops = amounts.filter(({ rule }) => rule.whenPassed === 'stop')
  const left = stops.map((amount) => left_mL(amount, earlier_mL))
  const body = bodyVolume_mL(bloodLimits, days, patient.weight_kg)
  return defined({
    amounts,
    earlier_mL,
    most_mL: left.length === 0 ? undefined : Math.max(0, Math.min(...left)),
    bodyVolume_mL: body,
  })
}

const left_mL = ({ rule, mL: amount }: Amount, earlier_mL: number): number =>
  rule.per === 'period' ? amount - earlier_mL : amount

/** The volumes shown before the draw: for this draw and for the period, each with the strictest rule's amount. */
export function bloodVolume(
  budget: BloodBudget,
  draw_mL: number,
  { blood }: PlanTexts,
): BloodVolume {
  const { amounts, earlier_mL } = budget
  const draw = amounts.find(({ rule }) => rule.per === 'draw')
  const period = amounts.find(({ rule }) => rule.per === 'period')
  const body = budget.bodyVolume_mL
  return defined({
    draw_mL: round2(draw_mL),
    earlier_mL,
    limit_mL: draw && round2(draw.mL),
    period_mL: period && round2(period.mL),
    bodyVolume_mL: body && round2(body),
    percentOfBody: body && round2((100 * draw_mL) / body),
    source: [draw, period].flatMap((a) => (a ? [a.rule.source] : [])).join('; ') || blood.noRule,
  })
}

/** Every rule that the draw would pass, as a notice. */
export function passedRules(
  budget: BloodBudget,
  draw_mL: number,
  { notices }: PlanTexts,
): { readonly stop: PlanNotice[]; readonly warn: PlanNotice[] } {
  const passed = budget.amounts.filter((a) => draw_mL > left_mL(a, budget.earlier_mL) + 1e-9)
  const said = ({ rule, mL: amount }: Amount): PlanNotice =>
    notice(
      'overLimit',
      notices.overLimit[rule.per],
      { draw_mL: mL(draw_mL), earlier_mL: mL(budget.earlier_mL), limit_mL: mL(amount) },
      rule.source,
    )
  const of = (when: 'stop' | 'warn'): PlanNotice[] => {
    const own = passed.filter(({ rule }) => rule.whenPassed === when)
    // The strictest of each kind says it; the rest would repeat it.
    return (['draw', 'period'] as const).flatMap((per) => {
      const first = own.find(({ rule }) => rule.per === per)
      return first ? [said(first)] : []
    })
  }
  return { stop: of('stop'), warn: of('warn') }
}

const round2 = (v: number): number => Math.round(v * 100) / 100
