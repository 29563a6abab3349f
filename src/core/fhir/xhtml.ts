const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

/** XML 1.0, production Char: what is outside it cannot stand in a document, not even escaped. */
const notXml = (sign: string): boolean => {
  const code = sign.codePointAt(0) ?? 0
  const isControl = code < 0x20 && code !== 9 && code !== 10 && code !== 13
  const isHalfPair = code >= 0xd800 && code <= 0xdfff
  return isControl || isHalfPair || code === 0xfffe || code === 0xffff
}

/** Any text as text of XHTML. */
export const xhtml = (text: string): string =>
  Array.from(text, (sign) => (notXml(sign) ? '\uFFFD' : (ENTITIES[sign] ?? sign))).join('')

/**
 * What a resource says in words (R4, `DomainResource.text`).
 * @param title plain text
 * @param body XHTML that R4 allows there
 */
export const narrativeOf = (
  title: string,
  body: string,
): { readonly status: 'generated'; readonly div: string } => ({
  status: 'generated',
  div: `<div xmlns="http://www.w3.org/1999/xhtml"><p><b>${xhtml(title)}</b></p>${body}</div>`,
})
