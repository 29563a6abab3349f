import { describe, expect, it } from 'vitest'
import { age_days, age_years, dayNumber } from '../../../src/core/bloodLimit/age.ts'
import { amountsFor, bodyVolume_mL } from '../../../src/core/bloodLimit/bloodLimits.ts'
import { SITE } from '../../support/planning.ts'

const { bloodLimits } = SITE
const YEAR = 365.25

describe('ages', () => {
  it('counts birthdays', () => {
    expect(age_years('2008-11-26', '2026-11-25')).toBe(17)
    expect(age_years('2008-11-25', '2026-11-25')).toBe(18)
    expect(age_years('2024-02-29', '2025-02-28')).toBe(0)
    expect(age_days('2026-11-20', '2026-11-25')).toBe(5)
  })

  it.each(['2026-02-30', '25.11.2026', '', '2026-1-1'])('refuses %s', (date) => {
    expect(dayNumber(date)).toBeUndefined()
    expect(age_years(date, '2026-11-25')).toBeUndefined()
  })

  it('refuses a birth in the future', () => {
    expect(age_days('2026-11-26', '2026-11-25')).toBeUndefined()
  })
})

describe('blood volume of a body', () => {
  // At or below the ranges of university draw guidance (Harriet Lane), an IRB table, and Geigy Scientific Tables.
  it.each([
    [5, 3, 80, 85],
    [200, 8, 75, 80],
    [2 * YEAR, 12, 70, 80],
    [6 * YEAR, 20, 65, 80],
    [15 * YEAR, 50, 65, 80],
    [40 * YEAR, 70, 65, 71],
  ])('at %s days and %s kg is between %s and %s mL/kg', (days, kg, low, high) => {
    const perKg = bodyVolume_mL(bloodLimits, days, kg)! / kg
    expect(perKg).toBeGreaterThanOrEqual(low)
    expect(perKg).toBeLessThanOrEqual(high)
  })

  it('is not known without a weight', () => {
    expect(bodyVolume_mL(bloodLimits, 4000, undefined)).toBeUndefined()
  })
})

describe('amounts', () => {
  const strictest = (years: number, kg: number | undefined, per: 'draw' | 'period') =>
    amountsFor(bloodLimits, years * YEAR, years, kg).find(({ rule }) => rule.per === per)

  // Phlebotomy textbook table under 14 years, as reproduced on a hospital page: never allow more than it does.
  it.each([
    [0, 3, 2.5],
    [0, 4, 3.5],
    [1, 10, 10],
    [5, 18, 10],
    [8, 25, 20],
    [9, 29, 25],
    [11, 40, 30],
  ])(
    'a child of %s years and %s kg is allowed no more than the textbook table: %s mL',
    (y, kg, mL) => {
      expect(strictest(y, kg, 'draw')!.mL).toBeLessThanOrEqual(mL)
    },
  )

  it('a child is allowed 1 % of the body volume, the lower end of the guidelines (Howie 2011, Bull WHO 89:46)', () => {
    const amount = strictest(5, 20, 'draw')!
    expect(amount.rule.id).toBe('childDay')
    expect(amount.mL).toBeCloseTo(0.01 * 20 * 65, 9)
  })

  it('a child: 1 % is told, 3 % a draw and 10 % in 8 weeks need a provider (Peplow 2019; Howie 2011)', () => {
    // 20 kg at 65 mL/kg: 1300 mL.
    const amounts = amountsFor(bloodLimits, 5 * YEAR, 5, 20)
    const stops = amounts.filter(({ rule }) => rule.whenPassed === 'stop')
    expect(amounts[0]).toMatchObject({ mL: 13, rule: { whenPassed: 'warn' } })
    expect(stops.map(({ rule, mL }) => [rule.per, Math.round(mL)])).toEqual([
      ['draw', 39],
      ['period', 130],
    ])
  })

  it('never allows more than the guidelines do: 5 % a day, 10 % in 8 weeks (Howie 2011, Bull WHO 89:46)', () => {
    for (const [years, kg] of [
      [0, 3],
      [1, 10],
      [9, 30],
      [17, 60],
    ] as const) {
      const body = bodyVolume_mL(bloodLimits, years * YEAR, kg)!
      const most = (per: 'draw' | 'period') =>
        Math.min(
          ...amountsFor(bloodLimits, years * YEAR, years, kg)
            .filter(({ rule }) => rule.per === per && rule.whenPassed === 'stop')
            .map(({ mL }) => mL),
        )
      expect(most('draw')).toBeLessThanOrEqual(0.05 * body)
      expect(most('period')).toBeLessThanOrEqual(0.1 * body + 1e-9)
    }
  })

  it('an adult in care has no limit: 45 CFR 46.110 is written for research', () => {
    expect(amountsFor(bloodLimits, 40 * YEAR, 40, 80)).toEqual([])
  })
})
