import { faulty, ok, type Result } from '../basics/result.ts'
import { characterFault, type CharacterFault } from './characterFault.ts'

/**
 * What a text is for. An identifier is compared letter by letter and printed as bars; a name is read aloud and
 * compared by a person; a text is free and may have several lines.
 */
export type TextUse = 'identifier' | 'name' | 'text'

export type TextFault =
  | { readonly kind: 'tooLong'; readonly most: number }
  | { readonly kind: 'noLetter' | 'spaces' | 'looseMark' | 'manyMarks' }
  | { readonly kind: CharacterFault | 'space' | 'variant'; readonly codePoint: number }
export type TextFaultKind = TextFault['kind']

const LONGEST_NAME = 120

/**
 * Reads a text that came from outside: brings it to the one form in which it is stored and compared (NFC, no space at
 * either end, in a name any run of spaces as one) or names the first thing in it that cannot be taken.
 * Nothing is dropped in silence but that space. An empty text is a text; whether one is needed the caller knows.
 * Sources: UAX #15 (NFC), UTS #39 sections 3.1 (identifiers without compatibility characters) and 5.4 (marks).
 */
export function readText(
  text: string,
  use: TextUse,
  most: number = LONGEST_NAME,
): Result<string, TextFault> {
  // Looked at before anything else, so that the size of a file costs nothing here.
  if (text.length > most * 4) return faulty([{ kind: 'tooLong', most }])
  const form = inForm(text, use)
  if ([...form].length > most) return faulty([{ kind: 'tooLong', most }])
  const fault =
    firstCharacterFault(form, use) ?? (use === 'text' ? undefined : wholeFault(form, use))
  return fault ? faulty([fault]) : ok(form)
}

function inForm(text: string, use: TextUse): string {
  const form = text.normalize('NFC').trim()
  if (use === 'text') return form.replace(/\r\n?/g, '\n')
  return use === 'name' ? form.replace(/\p{Zs}+/gu, ' ') : form
}

function firstCharacterFault(form: string, use: TextUse): TextFault | undefined {
  let index = 0
  for (const character of form) {
    const free = use === 'text' && (character === '\n' || character === '\t')
    const kind = free
      ? undefined
      : (characterFault(form, index, character) ?? strict(character, use))
    if (kind) return { kind, codePoint: character.codePointAt(0) ?? 0 }
    index += character.length
  }
  return undefined
}

/** Two identifiers that look alike must be alike: one kind of space, no letters that only differ in their make-up. */
function strict(character: string, use: TextUse): 'space' | 'variant' | undefined {
  if (use !== 'identifier') return undefined
  if (character !== ' ' && /\p{Zs}/u.test(character)) return 'space'
  return character.normalize('NFKC') === character ? undefined : 'variant'
}

function wholeFault(form: string, use: TextUse): TextFault | undefined {
  if (form === '') return undefined
  if (/^\p{M}/u.test(form)) return { kind: 'looseMark' }
  const apart = form.normalize('NFD')
  if (/[\p{Mn}\p{Me}]{5}|([\p{Mn}\p{Me}])\1/u.test(apart)) return { kind: 'manyMarks' }
  if (use === 'identifier' && form.includes('  ')) return { kind: 'spaces' }
  return /[\p{L}\p{N}]/u.test(form) ? undefined : { kind: 'noLetter' }
}
