/** A text as it is kept: in one form (NFC, UAX #15), line feeds for line breaks, no space at its ends. */
export function tidyText(text: string): string {
  return text.normalize('NFC').replace(/\r\n?/g, '\n').trim()
}

/** Plain data with every text in it as `tidyText` makes it. */
export function tidyTexts<T>(value: T): T {
  if (typeof value === 'string') return tidyText(value) as T
  if (Array.isArray(value)) return value.map(tidyTexts) as T
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(Object.entries(value).map(([key, v]) => [key, tidyTexts(v)])) as T
}
