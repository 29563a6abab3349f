import type { Patient } from './order.ts'

/** A name in its parts, as v2 PID-5 and FHIR HumanName have them. A person with one name has no given names. */
export interface NameParts {
  readonly familyName: string
  readonly givenNames: string
}

/**
 * The name a patient is asked for, whole. `written` is how the order writes it; it stands where it is made of the
 * parts (it may hold more, such as a suffix, or the family name first); otherwise given names come first.
 */
export function fullNameOf(parts: NameParts, written = ''): string {
  if (written.trim() !== '' && isMadeOf(written, parts)) return written.trim()
  return [parts.givenNames, parts.familyName].filter(Boolean).join(' ')
}

/** True when every word of the parts stands in the whole name, each as often. */
export function isMadeOf(whole: string, { familyName, givenNames }: NameParts): boolean {
  return leftOver(whole, `${familyName} ${givenNames}`).lacking.length === 0
}

/**
 * The name as a label begins with it: family name, then given names (CAP: "last name, first name"), then whatever else
 * the full name holds. Of an older record, whose parts nobody asked for, only the full name is known.
 */
export function familyFirst({ fullName, familyName, givenNames = '' }: Patient): {
  readonly family: string
  readonly given: string
} {
  if (!familyName) return { family: fullName, given: '' }
  const { over } = leftOver(fullName, `${familyName} ${givenNames}`)
  return { family: familyName, given: [givenNames, ...over].filter(Boolean).join(' ') }
}

/** Words of `whole` that are not in `parts`, and the other way round. A comma belongs to no word. */
function leftOver(
  whole: string,
  parts: string,
): { readonly over: readonly string[]; readonly lacking: readonly string[] } {
  const over = words(whole)
  const lacking = words(parts).filter((word) => {
    const place = over.findIndex((other) => plain(other) === plain(word))
    if (place >= 0) over.splice(place, 1)
    return place < 0
  })
  return { over, lacking }
}

const words = (text: string): string[] => text.split(/[\s,]+/).filter((word) => word !== '')

const plain = (word: string): string => word.normalize('NFC').toLowerCase()
