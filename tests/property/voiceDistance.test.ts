import fc from 'fast-check'
import { expect, it } from 'vitest'
import { phoneDistance } from '../../src/core/voice/phoneDistance.ts'

const PHONES = 'IY IH EY EH AE AA AO OW UH UW AH ER AY AW OY P B M W F V TH DH T D S Z N L R SH ZH CH JH Y K G NG HH'.split(' ') // prettier-ignore
const said = fc.array(fc.constantFrom(...PHONES), { minLength: 1, maxLength: 12 })

it('the distance of two pronunciations is symmetric, 0 only for the same, and never above 1.3', () => {
  fc.assert(
    fc.property(said, said, (a, b) => {
      const distance = phoneDistance(a, b)
      expect(distance).toBeCloseTo(phoneDistance(b, a), 10)
      expect(distance === 0).toBe(a.join(' ') === b.join(' '))
      expect(distance).toBeLessThanOrEqual(1.3)
    }),
    { numRuns: 300 },
  )
})

it('one phone more never costs more than losing that phone', () => {
  fc.assert(
    fc.property(said, fc.constantFrom(...PHONES), (a, phone) => {
      expect(phoneDistance(a, [...a, phone])).toBeLessThanOrEqual(0.9)
    }),
    { numRuns: 200 },
  )
})
