/** So many bytes at once: a call takes no more arguments. */
const PART = 0x8000

/** RFC 4648 section 4. */
export function toBase64(bytes: Uint8Array): string {
  let text = ''
  for (let at = 0; at < bytes.length; at += PART) {
    text += String.fromCharCode(...bytes.subarray(at, at + PART))
  }
  return btoa(text)
}

/** @throws Error for what is no base64 */
export function fromBase64(text: string): Uint8Array<ArrayBuffer> {
  const characters = atob(text)
  const bytes = new Uint8Array(characters.length)
  // What is read one by one as a string's characters takes fifty times as long.
  for (let at = 0; at < bytes.length; at++) bytes[at] = characters.charCodeAt(at)
  return bytes
}
