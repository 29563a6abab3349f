import * as fc from 'fast-check'
import { expect, it } from 'vitest'
import {
  readJoinCode,
  shownJoinCode,
  writeJoinCode,
} from '../../../../src/core/hub/join/joinCode.ts'

const bytes = fc.uint8Array({ minLength: 8, maxLength: 8 })

it('a code is read as it is shown, in small letters, with spaces, and misread', () => {
  fc.assert(
    fc.property(bytes, (lot) => {
      const code = writeJoinCode(lot)
      expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{8}$/)
      const shown = shownJoinCode(code)
      const misread = shown.replace(/0/g, 'o').replace(/1/g, 'l')
      for (const typed of [code, shown, shown.toLowerCase(), ` ${shown} `, misread])
        expect(readJoinCode(typed)).toBe(code)
    }),
  )
})

it('each of the 32 letters is as likely as any other', () => {
  const letters = new Map<string, number>()
  for (let byte = 0; byte < 256; byte++) {
    const letter = writeJoinCode(new Uint8Array(8).fill(byte)).charAt(0)
    letters.set(letter, (letters.get(letter) ?? 0) + 1)
  }
  expect(letters.size).toBe(32)
  expect(new Set(letters.values())).toEqual(new Set([8]))
})

it.each(['', '1234567', '123456789', 'ABCDEFGU', 'ÄBCDEFGH', '7Q2F-K9M!', '0'.repeat(1e6)])(
  'no code: %#',
  (typed) => expect(readJoinCode(typed)).toBeUndefined(),
)

it('is made of exactly 8 bytes', () => {
  expect(() => writeJoinCode(new Uint8Array(7))).toThrow(RangeError)
})
