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
  /** Blood that may be taken now: without passing any rule, then without passing one that stops, mL; ascending. */
  readonly limits_mL: readonly number[]
  readonly bodyVolume_mL?: number
}

export function bloodBudget(input: PlanInput): BloodBudget {
  const { patient, preparation, bloodLimits, today } = input
  const days = age_days(patient.birthDate, today)
  const years = age_years(patient.birthDate, today)
  const earlier_mL = preparation.earlierDraws_mL ?? 0
  if (days === undefined || years === undefined) return { amounts: [], earlier_mL, limits_mL: [] }
  const amounts = amountsFor(bloodLimits, days, years, patient.weight_kg)
  const stops = amounts.filter(({ rule }) => rule.whenPassed === 'stop')
  const least = (rules: readonly Amount[]): number[] =>
    rules.length === 0
      ? []
      : [Math.max(0, Math.min(...rules.map((amount) => left_mL(amount, earlier_mL))))]
  const body = bodyVolume_mL(bloodLimits, days, patient.weight_kg)
  return defined({
    amounts,
    earlier_mL,
    limits_mL: [...new Set([...least(amounts), ...least(stops)])],
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
  const worded = ({ rule, mL: amount }: Amount): PlanNotice =>
    notice(
      NOTICE_OF[rule.whenPassed],
      notices[NOTICE_OF[rule.whenPassed]][rule.per],
      { draw_mL: mL(draw_mL), earlier_mL: mL(budget.earlier_mL), limit_mL: mL(amount) },
      rule.source,
    )
  // The strictest of each kind says it, and one that stops before one that warns; the rest would repeat it.
  const said = (['draw', 'period'] as const).flatMap((per) => {
    const own = passed.filter(({ rule }) => rule.per === per)
    return own.find(({ rule }) => rule.whenPassed === 'stop') ?? own.slice(0, 1)
  })
  const of = (when: 'stop' | 'warn'): PlanNotice[] =>
    said.filter(({ rule }) => rule.whenPassed === when).map(worded)
  return { stop: of('stop'), warn: of('warn') }
}

const NOTICE_OF = { stop: 'overLimit', warn: 'muchBlood' } as const

const round2 = (v: number): number => Math.round(v * 100) / 100
