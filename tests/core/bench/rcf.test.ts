import { describe, expect, it } from 'vitest'
import { rcf, rpmFor } from '../../../src/core/bench/rcf.ts'

describe('the force at a radius', () => {
  // RCF = 1.118e-5 r(cm) rpm²: handbook form; exactly 4π²/(3600 · 980.665) = 1.11824e-5, calculated.
  it('is 1.11824e-5 times the radius in cm times the square of the turns', () => {
    expect(rcf(10, 1)).toBeCloseTo(1.11824e-5, 10)
    expect(rcf(10, 1)).toBeCloseTo((4 * Math.PI ** 2) / (3600 * 980.665), 15)
  })

  // 5 cm at 10,000 rpm is 5,590 g: an exam preparation page's worked example.
  it('is 5,590 g at 5 cm and 10,000 rpm', () => {
    expect(Math.abs(rcf(50, 10_000) - 5590)).toBeLessThan(2)
  })

  // Calculated by the exact constant.
  it.each([
    [100, 3000, 1006],
    [150, 3000, 1509],
    [170, 3000, 1711],
  ])('at %i mm and %i rpm is %i g', (radius_mm, rpm, g) => {
    expect(Math.abs(rcf(radius_mm, rpm) - g)).toBeLessThan(1)
  })

  // The same table the other way.
  it.each([
    [100, [3410, 3663, 4230]],
    [125, [3050, 3276, 3783]],
    [150, [2784, 2991, 3453]],
    [170, [2615, 2809, 3244]],
    [200, [2411, 2590, 2991]],
  ])('at %i mm takes %j rpm for 1300, 1500 and 2000 g', (radius_mm, rpm) => {
    const found = [1300, 1500, 2000].map((g) => rpmFor(radius_mm, g))
    found.forEach((turns, i) => expect(Math.abs(turns - (rpm[i] ?? 0))).toBeLessThan(1))
  })
})
