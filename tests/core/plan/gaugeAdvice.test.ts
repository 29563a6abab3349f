import { describe, expect, it } from 'vitest'
import { gaugeAdvice, gaugeRemark } from '../../../src/core/plan/gaugeAdvice.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { WINGED } from '../../support/planning.ts'

describe('advice on the needle (common practice, no source)', () => {
  it.each([
    ['medianCubital', 40, 21],
    ['hand', 40, 23],
    ['medianCubital', 5, 23],
    ['medianCubital', 80, 22],
    ['medianCubital', 14, 22],
  ] as const)('%s at %s years: %s gauge first', (vein, age_y, gauge) => {
    expect(gaugeAdvice({ vein, age_y }).gauges[0]).toBe(gauge)
  })

  it('25 gauge only for infants (not recommended in general: Lippi 2006, as summarized)', () => {
    for (const age_y of [1, 11, 12, 40, 90]) {
      for (const vein of ['hand', 'medianCubital', undefined] as const) {
        expect(gaugeAdvice({ vein, age_y }).gauges).not.toContain(25)
      }
    }
  })

  it('asks for the printed number and never names a color', () => {
    for (const age_y of [0, 5, 40, 80]) {
      const text = texts.plan.gauge[gaugeAdvice({ vein: 'hand', age_y }).case]
      expect(text).toContain('printed')
      expect(text).not.toMatch(/blue|green|black|orange|purple|violet|yellow|colou?r/i)
    }
  })

  it('a teenager is not called an adult, and a hand vein is known once it is chosen', () => {
    expect(gaugeAdvice({ vein: undefined, age_y: 14 }).case).toBe('teenager')
    expect(gaugeAdvice({ vein: 'hand', age_y: 40 }).case).toBe('hand')
    const thin = { ...WINGED, gauge: 23 } as const
    const remark = (vein: 'hand' | 'medianCubital' | undefined) =>
      gaugeRemark(thin, { vein, age_y: 40 }, texts.plan)
    // A winged 23 gauge is right in a hand: nothing is said before the vein is known.
    expect([remark(undefined), remark('hand')]).toEqual([undefined, undefined])
    expect(remark('medianCubital')).toContain('23 gauge')
  })

  it('remarks only on a set outside the advice', () => {
    expect(gaugeRemark(WINGED, { vein: 'medianCubital', age_y: 40 }, texts.plan)).toBeUndefined()
    expect(
      gaugeRemark({ ...WINGED, gauge: 25 }, { vein: 'hand', age_y: 40 }, texts.plan),
    ).toContain('25 gauge')
    expect(
      gaugeRemark(
        { ...WINGED, kind: 'straight', gauge: 23 },
        { vein: 'hand', age_y: 40 },
        texts.plan,
      ),
    ).toContain('straight')
  })
})
