/** Where a token of JSON ends: the place behind it, or where it stops being one. */
export type TokenEnd = { readonly end: number } | { readonly brokenAt: number }

/** Behind the white space that starts at `at` (RFC 8259 section 2). */
export function skipSpace(text: string, at: number): number {
  let end = at
  while (SPACE.has(text.charCodeAt(end))) end += 1
  return end
}

/** The string whose quotation mark stands at `at` (RFC 8259 section 7). */
export function stringEnd(text: string, at: number): TokenEnd {
  for (let i = at + 1; i < text.length; i += 1) {
    const code = text.charCodeAt(i)
    if (code === QUOTE) return { end: i + 1 }
    if (code < 0x20) return { brokenAt: i }
    if (code !== BACKSLASH) continue
    const escape = text.charAt(i + 1)
    if (escape === '') break
    const good =
      escape === 'u'
        ? /^[0-9a-fA-F]{4}$/.test(text.slice(i + 2, i + 6))
        : '"\\/bfnrt'.includes(escape)
    if (!good) return { brokenAt: i + 1 }
    i += escape === 'u' ? 5 : 1
  }
  return { brokenAt: text.length }
}

/** The number, `true`, `false` or `null` at `at` (RFC 8259 sections 3 and 6). */
export function scalarEnd(text: string, at: number): TokenEnd {
  const word = WORDS.find((known) => text.startsWith(known, at))
  if (word !== undefined) return { end: at + word.length }
  // The beginning of such a word at the very end of the text is a text that breaks off.
  const rest = text.slice(at, at + 5)
  const cut = at + rest.length === text.length && WORDS.some((known) => known.startsWith(rest))
  if (cut) return { brokenAt: text.length }
  NUMBER.lastIndex = at
  const number = NUMBER.exec(text)?.[0]
  if (number === undefined) return { brokenAt: text.charAt(at) === '-' ? at + 1 : at }
  return { end: at + number.length }
}

const SPACE: ReadonlySet<number> = new Set([0x20, 0x09, 0x0a, 0x0d])
const QUOTE = 0x22
const BACKSLASH = 0x5c
const WORDS = ['true', 'false', 'null']
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y
