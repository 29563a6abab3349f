import fc from 'fast-check'
import { expect, it } from 'vitest'
import { readRecovery, writeRecovery } from '../../../src/core/lock/recoveryText.ts'

const bytes = fc.uint8Array({ minLength: 20, maxLength: 20 })

it('is read again as it was written, in small letters, without hyphens, with O for 0 and l for 1', () => {
  fc.assert(
    fc.property(bytes, (key) => {
      const text = writeRecovery(key)
      expect(text).toMatch(/^([0-9A-HJKMNP-TV-Z]{4}-){7}[0-9A-HJKMNP-TV-Z]{4}$/)
      const typed = text
        .toLowerCase()
        .replaceAll('-', ' ')
        .replaceAll('0', 'o')
        .replaceAll('1', 'l')
      expect(readRecovery(text)).toEqual(key)
      expect(readRecovery(typed)).toEqual(key)
    }),
  )
})

it('writes the alphabet of Crockford Base 32', () => {
  // https://www.crockford.com/base32.html, from memory: the values 0 to 31 in order.
  const bits = Array.from({ length: 32 }, (_, value) => value.toString(2).padStart(5, '0')).join('')
  const key = Uint8Array.from(bits.match(/.{8}/g) ?? [], (byte) => Number.parseInt(byte, 2))
  expect(writeRecovery(key).replaceAll('-', '')).toBe('0123456789ABCDEFGHJKMNPQRSTVWXYZ')
})

it.each(['', '1234', 'U'.repeat(32), 'A'.repeat(31), 'A'.repeat(33), 'ä'.repeat(32)])(
  'is no key: %j',
  (typed) => expect(readRecovery(typed)).toBeUndefined(),
)
