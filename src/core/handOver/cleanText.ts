/** What may change how a line is shown without being seen: controls, marks of direction, half pairs. */
const UNSEEN = /[\p{Cc}\p{Cs}\u200b-\u200f\u2028-\u202e\u2066-\u2069\ufeff]/gu

/** A text from a server, fit to be shown on one line; empty for what is no text. */
export function cleanText(value: unknown, most: number): string {
  if (typeof value !== 'string') return ''
  const text = value
    .slice(0, most * 4)
    .replace(UNSEEN, ' ')
    .replace(/\s+/g, ' ')
    .trim()
  return text.length > most ? `${text.slice(0, most - 1)}…` : text
}
