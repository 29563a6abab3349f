import { joinerIsInPlace, ZWJ, ZWNJ } from './joiners.ts'

/** Why a character has no place in a text that a person must be able to read as it is. */
export const CHARACTER_FAULTS = [
  'lineBreak',
  'control',
  'direction',
  'joiner',
  'variation',
  'invisible',
  'private',
  'lost',
] as const
export type CharacterFault = (typeof CHARACTER_FAULTS)[number]

/** Breaks of line and page: the mandatory breaks of UAX #14 (BK, CR, LF, NL). */
const LINE_BREAK = /[\n\v\f\r\u0085\u2028\u2029]/u
/** Shown as nothing where it is not supported; and three that take no place or have no ink although they are. */
const INVISIBLE = /[\p{Default_Ignorable_Code_Point}\u2800\uFFF9-\uFFFB]/u
const VARIATION = /[\uFE00-\uFE0F\u180B-\u180D\u180F]|[\u{E0100}-\u{E01EF}]/u
/** Half a pair, a code that is no character, and the marks that stand for a character or object that got lost. */
const LOST = /[\p{Cs}\p{Noncharacter_Code_Point}\uFFFC\uFFFD]/u

/**
 * Says why the character at a place of a text cannot be seen or trusted, or `undefined`.
 * Joiners and variation selectors are judged by what stands before them: they are part of names in some scripts
 * (RFC 5892 Appendix A; UTS #37 for ideographs; the Unicode Standard, section 13.5, for Mongolian).
 * @param index of the first code unit of the character
 * @param character the whole character there
 */
export function characterFault(
  text: string,
  index: number,
  character: string,
): CharacterFault | undefined {
  if (/[\x20-\x7E]/.test(character)) return undefined
  if (LINE_BREAK.test(character)) return 'lineBreak'
  if (/\p{Cc}/u.test(character)) return 'control'
  if (/\p{Bidi_Control}/u.test(character)) return 'direction'
  if (character === ZWJ || character === ZWNJ) {
    return joinerIsInPlace(text, index) ? undefined : 'joiner'
  }
  if (VARIATION.test(character)) {
    return variationIsInPlace(text.slice(Math.max(0, index - 2), index), character)
      ? undefined
      : 'variation'
  }
  if (INVISIBLE.test(character)) return 'invisible'
  if (/\p{Co}/u.test(character)) return 'private'
  return LOST.test(character) ? 'lost' : undefined
}

function variationIsInPlace(before: string, selector: string): boolean {
  const mongolian = /[\u180B-\u180D\u180F]/.test(selector)
  return (mongolian ? /\p{Script=Mongolian}$/u : /\p{Unified_Ideograph}$/u).test(before)
}
