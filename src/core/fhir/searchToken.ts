/** FHIR R4, "Escaping Search Parameters": these four mean something within a value. */
const escaped = (text: string): string => text.replace(/[\\$,|]/g, '\\$&')

/** Half a surrogate pair cannot be sent; it becomes U+FFFD, as in UTF-8. */
const sendable = (text: string): string =>
  text.replace(/[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g, '\uFFFD')

/** A number or code with its system as one search value, ready to stand in an address. */
export const searchToken = (system: string, value: string): string =>
  encodeURIComponent(`${escaped(sendable(system))}|${escaped(sendable(value))}`)
