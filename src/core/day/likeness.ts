import type { Patient } from '../order/order.ts'
import { personKey } from './together.ts'

/** In what two patients of the list could be taken for each other. */
export const LIKENESSES = ['sameNumber', 'sameName', 'likeName'] as const
export type Likeness = (typeof LIKENESSES)[number]

const PLAIN = /^[a-z0-9]+$/

/** Most words are plain as they are: taking letters apart costs more than looking. */
const plain = (text: string): string => {
  const lower = text.toLowerCase()
  return PLAIN.test(lower) ? lower : bare(text)
}

const bare = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()

/** Last word and first letter where the parts are not known: what is taken for another is near it, not exact. */
function nearName({ fullName, familyName, givenNames }: Patient): string {
  const words = plain(fullName).split(' ')
  const family = familyName ? plain(familyName) : (words.at(-1) ?? '')
  const given = givenNames ? plain(givenNames) : (words[0] ?? '')
  return `${family} ${given.charAt(0)}`
}

interface Person {
  readonly key: string
  readonly patient: Patient
}

/**
 * Other patients whom one could be taken for, by the key of each: the same record number under another name or birth
 * date, the same name, or the same family name and first letter (common practice, no source).
 */
export function likenesses(
  patients: readonly Patient[],
): ReadonlyMap<string, readonly { readonly patient: Patient; readonly likeness: Likeness }[]> {
  const people = new Map<string, Person>()
  for (const patient of patients) {
    const key = personKey(patient)
    people.set(key, { key, patient })
  }
  const all = [...people.values()]
  const found = new Map<string, Map<string, { patient: Patient; likeness: Likeness }>>()
  const join = (by: (patient: Patient) => string, likeness: Likeness): void => {
    const groups = new Map<string, Person[]>()
    for (const person of all) {
      const name = by(person.patient)
      if (name.trim() !== '') groups.set(name, [...(groups.get(name) ?? []), person])
    }
    for (const group of groups.values()) {
      for (const one of group) {
        const own =
          found.get(one.key) ?? new Map<string, { patient: Patient; likeness: Likeness }>()
        for (const other of group) {
          if (other !== one && !own.has(other.key)) {
            own.set(other.key, { patient: other.patient, likeness })
          }
        }
        if (own.size > 0) found.set(one.key, own)
      }
    }
  }
  join(({ recordNumber }) => recordNumber.trim(), 'sameNumber')
  join(({ fullName }) => plain(fullName), 'sameName')
  join(nearName, 'likeName')
  return new Map([...found].map(([key, own]) => [key, [...own.values()]]))
}
