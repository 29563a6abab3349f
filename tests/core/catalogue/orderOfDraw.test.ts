import { describe, expect, it } from 'vitest'
import { ADDITIVES } from '../../../src/core/catalogue/additives.ts'
import { compareDraw, DRAW_GROUP, DRAW_GROUPS } from '../../../src/core/catalogue/orderOfDraw.ts'

describe('the order of draw', () => {
  it('is culture, citrate, serum, heparin, EDTA, fluoride, other (WHO 2010 Table 2.3 as condensed; others last: university laboratory page)', () => {
    expect(DRAW_GROUPS).toEqual([
      'culture',
      'citrate',
      'serum',
      'heparin',
      'EDTA',
      'fluoride',
      'other',
    ])
  })

  it('gives every additive exactly one place', () => {
    const placed = DRAW_GROUPS.flatMap((group) =>
      ADDITIVES.filter((additive) => DRAW_GROUP[additive] === group),
    )
    expect([...placed].sort()).toEqual([...ADDITIVES].sort())
    expect(DRAW_GROUP.thrombin).toBe('serum')
  })

  it('draws trace element tubes with their kind (a university laboratory page lists royal blue with serum and royal blue with EDTA in those groups)', () => {
    expect(DRAW_GROUP.traceActivator).toBe('serum')
    expect(DRAW_GROUP.traceEdta).toBe('EDTA')
    expect(compareDraw('traceActivator', 'heparinLithium')).toBeLessThan(0)
    expect(compareDraw('traceActivator', 'edtaK2')).toBeLessThan(0)
    expect(compareDraw('traceEdta', 'fluorideOxalate')).toBeLessThan(0)
    // Of one group, the tube that must not be contaminated comes before the others.
    expect(compareDraw('traceActivator', 'activatorGel')).toBeLessThan(0)
    expect(compareDraw('traceEdta', 'edtaK2')).toBeLessThan(0)
  })

  it('puts the aerobic bottle first (nursing culture guides)', () => {
    expect(compareDraw('cultureAerobic', 'cultureAnaerobic')).toBeLessThan(0)
    expect(compareDraw('edtaK2', 'citrate')).toBeGreaterThan(0)
  })
})
