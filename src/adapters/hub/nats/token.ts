/**
 * A name as one token of a subject: letters, digits and `-` stay, every other byte of it becomes `_` with two
 * hexadecimal digits. So a dot, a star or a space in a name is never taken for a part of the subject's own grammar
 * (in a subject a wildcard is a whole token), and two names never share a token.
 */
export function tokenOf(name: string): string {
  const bytes = new TextEncoder().encode(name)
  return [...bytes].map((byte) => PLAIN[byte] ?? `_${byte.toString(16).padStart(2, '0')}`).join('')
}

/** The name behind a token; `undefined` where no name makes that token. */
export function nameOf(token: string): string | undefined {
  if (!/^(?:[A-Za-z0-9-]|_[0-9a-f]{2})+$/.test(token)) return undefined
  const bytes = token.match(/_..|./g) ?? []
  const codes = bytes.map((part) =>
    part.length === 3 ? parseInt(part.slice(1), 16) : part.charCodeAt(0),
  )
  try {
    const name = new TextDecoder('utf-8', { fatal: true }).decode(Uint8Array.from(codes))
    return tokenOf(name) === token ? name : undefined
  } catch {
    return undefined
  }
}

const PLAIN: Readonly<Record<number, string>> = Object.fromEntries(
  [...'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-'].map((letter) => [
    letter.charCodeAt(0),
    letter,
  ]),
)
