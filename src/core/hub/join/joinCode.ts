/** No I, L, O, U, as in the recovery key: nothing that is misread, no words. */
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'
const LENGTH = 8

/** So long a code may be used. */
export const CODE_LIFE_ms = 5 * 60_000
/** So many wrong codes end an invitation: guessing has three chances in 2^40. */
export const CODE_TRIES = 3

/** A code of 40 random bits. @param bytes 8 of them, each gives one letter */
export function writeJoinCode(bytes: Uint8Array): string {
  if (bytes.length !== LENGTH) throw new RangeError(`A code is made of ${LENGTH} bytes.`)
  return [...bytes].map((byte) => LETTERS[byte % LETTERS.length]).join('')
}

/** As it is shown: `7Q2F-K9MX`. */
export const shownJoinCode = (code: string): string => `${code.slice(0, 4)}-${code.slice(4)}`

/** The code as somebody typed or scanned it, small letters and misread ones forgiven; `undefined` if it is none. */
export function readJoinCode(typed: string): string | undefined {
  // Nothing longer was meant as a code, whatever it holds.
  if (typed.length > 40) return undefined
  const text = typed.toUpperCase().replace(/[\s-]/g, '').replace(/O/g, '0').replace(/[IL]/g, '1')
  const isCode = text.length === LENGTH && [...text].every((letter) => LETTERS.includes(letter))
  return isCode ? text : undefined
}
