import { JOINS_BACK, JOINS_ON, VIRAMA } from './joiningLetters.ts'

export const ZWNJ = '\u200C'
export const ZWJ = '\u200D'

/**
 * Tells whether a zero width joiner or non-joiner changes how the letters around it are written. Only there is it a
 * part of a name, as in Persian compounds or Sinhala clusters; anywhere else it cannot be seen and makes two texts
 * that look alike differ.
 * Rules: RFC 5892 Appendix A.1 and A.2, the same contexts as UAX #31 section 2.3 (A1, A2 and B).
 */
export function joinerIsInPlace(text: string, index: number): boolean {
  // A window, so that a text of nothing but joiners costs no more than any other.
  const before = text.slice(Math.max(0, index - WINDOW), index)
  const after = text.slice(index + 1, index + 1 + WINDOW)
  if (AFTER_VIRAMA.test(before)) return true
  return text[index] === ZWNJ && PARTS_ON.test(before) && PARTS_BACK.test(after)
}

/** More than a letter and all the marks it can carry. */
const WINDOW = 16

// Marks that ride on a letter do not stop it from joining (Joining_Type Transparent is Mn, Me and most of Cf).
const MARKS = '[\\p{Mn}\\p{Me}]*'
const AFTER_VIRAMA = new RegExp(`${VIRAMA}$`, 'u')
const PARTS_ON = new RegExp(`${JOINS_ON}${MARKS}$`, 'u')
const PARTS_BACK = new RegExp(`^${MARKS}${JOINS_BACK}`, 'u')
