/** No I, L, O, U: what a person might misread or would rather not read. After Crockford's Base 32. */
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'
const BYTES = 20
const GROUP = 4

/** 160 random bits as eight groups of four letters, to be written down: `7Q2F-...`. */
export function writeRecovery(bytes: Uint8Array): string {
  if (bytes.length !== BYTES) throw new RangeError(`A recovery key has ${BYTES} bytes.`)
  let bits = ''
  for (const byte of bytes) bits += byte.toString(2).padStart(8, '0')
  const letters = (bits.match(/.{5}/g) ?? []).map((five) => LETTERS[Number.parseInt(five, 2)])
  return (letters.join('').match(new RegExp(`.{${GROUP}}`, 'g')) ?? []).join('-')
}

/** The bytes of a key as somebody typed it, small letters and misread ones forgiven; `undefined` if it is none. */
export function readRecovery(typed: string): Uint8Array<ArrayBuffer> | undefined {
  const text = typed.toUpperCase().replace(/[\s-]/g, '').replace(/O/g, '0').replace(/[IL]/g, '1')
  const values = [...text].map((letter) => LETTERS.indexOf(letter))
  if (values.length !== (BYTES * 8) / 5 || values.includes(-1)) return undefined
  const bits = values.map((value) => value.toString(2).padStart(5, '0')).join('')
  return Uint8Array.from(bits.match(/.{8}/g) ?? [], (byte) => Number.parseInt(byte, 2))
}
