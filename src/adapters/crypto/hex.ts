export function toHex(bytes: ArrayBuffer): string {
  return [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, '0')).join('')
}

/** @throws RangeError when the text is not pairs of lower-case hex digits. */
export function fromHex(text: string): Uint8Array<ArrayBuffer> {
  if (!/^([0-9a-f]{2})*$/.test(text)) throw new RangeError('The text is not lower-case hex.')
  return Uint8Array.from(text.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16))
}
