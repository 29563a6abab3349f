import type { CommandKey } from '../protocol/commands.ts'

export const UNKNOWN = '[unk]'

export interface Match<K extends string = CommandKey> {
  readonly phrase: string
  readonly key: K
}

/** The open phrase that a text is, word for word. */
export function exactMatch<K extends string>(
  text: string,
  open: ReadonlyMap<string, K>,
): Match<K> | undefined {
  const key = open.get(text)
  return key === undefined ? undefined : { phrase: text, key }
}

/** Some longer open phrase begins with this one, so more may be coming. */
export function sharesStart(phrase: string, open: ReadonlyMap<string, string>): boolean {
  return [...open.keys()].some((other) => other.startsWith(`${phrase} `))
}

/** A safety phrase anywhere in a text: help must be found also in the middle of a sentence. */
export function safetyWithin<K extends string>(
  text: string,
  open: ReadonlyMap<string, K>,
  safety: ReadonlySet<string>,
): Match<K> | undefined {
  const spaced = ` ${text} `
  for (const [phrase, key] of open) {
    if (safety.has(key) && spaced.includes(` ${phrase} `)) return { phrase, key }
  }
  return undefined
}

/**
 * The one open phrase of several words within a text, other words around it or not; none where there are several, since
 * nobody can tell which was said to us. A single word is in too much else.
 */
export function soleWithin<K extends string>(
  text: string,
  open: ReadonlyMap<string, K>,
): Match<K> | undefined {
  const spaced = ` ${text} `
  const found = [...open].filter(
    ([phrase]) => phrase.includes(' ') && spaced.includes(` ${phrase} `),
  )
  const longest = found.filter(
    ([phrase]) =>
      !found.some(([other]) => other !== phrase && ` ${other} `.includes(` ${phrase} `)),
  )
  const [only, second] = longest
  return only && !second ? { phrase: only[0], key: only[1] } : undefined
}

/** Phrases said in one breath: what is left of a text after a phrase, or `undefined` if it does not begin with it. */
export function afterPhrase(text: string, phrase: string): string | undefined {
  if (text === phrase) return ''
  return text.startsWith(`${phrase} `) ? text.slice(phrase.length + 1) : undefined
}

/** Drops unknown sounds from both ends: breaths, a cough, a word to the patient before or after. */
export function trimUnknown(text: string): string {
  return text.replace(/^(\[unk\] )+/, '').replace(/( \[unk\])+$/, '')
}

/** Only words of open phrases, fewer than a phrase, nothing unknown: somebody meant us and was not understood. */
export function isFragment(text: string, open: ReadonlyMap<string, string>): boolean {
  if (!text || text.includes(UNKNOWN)) return false
  return [...open.keys()].some(
    (phrase) => phrase.startsWith(`${text} `) || phrase.endsWith(` ${text}`),
  )
}
