import fc from 'fast-check'
import { expect, it } from 'vitest'
import { pinFault, pinWait_ms } from '../../../src/core/lock/pin.ts'

it.each([
  ['482913', undefined],
  ['000001', undefined],
  ['48291', 'tooShort'],
  ['', 'tooShort'],
  ['4829131234567', 'tooLong'],
  ['48291a', 'digitsOnly'],
  ['４８２９１３', 'digitsOnly'],
  ['777777', 'tooSimple'],
  ['123456', 'tooSimple'],
  ['987654', 'tooSimple'],
  ['135791', undefined],
] as const)('%s: %s', (pin, fault) => expect(pinFault(pin)).toBe(fault))

it('the wait after wrong PINs grows to five minutes and never shrinks', () => {
  expect([0, 1, 2, 3, 4, 5, 6, 7, 8, 9].map((n) => pinWait_ms(n) / 1000)).toEqual([
    0, 0, 0, 5, 15, 30, 60, 120, 300, 300,
  ])
  fc.assert(
    fc.property(fc.nat(1e6), (wrong) => {
      expect(pinWait_ms(wrong + 1)).toBeGreaterThanOrEqual(pinWait_ms(wrong))
    }),
  )
})
