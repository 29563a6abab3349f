import { fillText } from '../basics/fillText.ts'
import type { TextFault, TextFaultKind } from './readText.ts'

/** The wording of faults in texts, a file of the language. */
export interface TextFaultTexts {
  /** `{field}` is the name of the field at the beginning of a sentence, `{character}` as `characterName` writes it. */
  readonly faults: Readonly<Record<TextFaultKind, string>>
  /** Names of characters by code point in hexadecimal, as the Unicode Character Database has them. */
  readonly characters: Readonly<Record<string, string>>
}

/** A sentence that names the field and, where there is one, the character. */
export function textFaultSentence(fault: TextFault, field: string, texts: TextFaultTexts): string {
  const character = 'codePoint' in fault ? characterName(fault.codePoint, texts) : ''
  const most = 'most' in fault ? fault.most : ''
  return fillText(texts.faults[fault.kind], { field, character, most })
}

/** `U+202E RIGHT-TO-LEFT OVERRIDE`, or the code alone where the name is not in the list. */
function characterName(
  codePoint: number,
  { characters }: Pick<TextFaultTexts, 'characters'>,
): string {
  const code = codeOf(codePoint)
  const name = Object.hasOwn(characters, code) ? characters[code] : undefined
  return name ? `U+${code} ${name}` : `U+${code}`
}

/** At least four hexadecimal digits, as the Unicode Standard writes code points (Appendix A). */
export function codeOf(codePoint: number): string {
  return codePoint.toString(16).toUpperCase().padStart(4, '0')
}
