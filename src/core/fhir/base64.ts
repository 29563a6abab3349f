const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/'

/** Bytes of a text in UTF-8 (RFC 3629); half a surrogate pair becomes U+FFFD. */
export function utf8Bytes(text: string): number[] {
  const bytes: number[] = []
  for (const character of text) {
    const raw = character.codePointAt(0) ?? 0
    const code = raw >= 0xd800 && raw <= 0xdfff ? 0xfffd : raw
    if (code < 0x80) bytes.push(code)
    else if (code < 0x800) bytes.push(0xc0 | (code >> 6), tail(code))
    else if (code < 0x10000) bytes.push(0xe0 | (code >> 12), tail(code >> 6), tail(code))
    else bytes.push(0xf0 | (code >> 18), tail(code >> 12), tail(code >> 6), tail(code))
  }
  return bytes
}

const tail = (bits: number): number => 0x80 | (bits & 0x3f)

/** RFC 4648 section 4. */
export function base64(bytes: readonly number[]): string {
  let text = ''
  for (let i = 0; i < bytes.length; i += 3) {
    const [a = 0, b = 0, c = 0] = bytes.slice(i, i + 3)
    const bits = (a << 16) | (b << 8) | c
    const digits = [bits >> 18, bits >> 12, bits >> 6, bits].map((part) => DIGITS[part & 63])
    const given = Math.min(3, bytes.length - i)
    text += digits
      .slice(0, given + 1)
      .join('')
      .padEnd(4, '=')
  }
  return text
}
