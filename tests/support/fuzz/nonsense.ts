/**
 * What counts as nonsense in a file that was taken, written anew so that a slip of a reader is not repeated here.
 * Each check answers with what is wrong.
 */

/** Letters that nobody sees, or that are no letters (Unicode general categories; section 4.5 of the Standard). */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Cn}\p{Zl}\p{Zp}\u034f\ufffc\ufffd]/u

export const isDay = (text: string): boolean => {
  const [, y, m, d] = /^([0-9]{4})-([0-9]{2})-([0-9]{2})$/.exec(text) ?? []
  const date = new Date(Date.UTC(2000, 0, 1))
  date.setUTCFullYear(Number(y), Number(m) - 1, Number(d))
  return date.getUTCFullYear() === Number(y) && date.getUTCMonth() === Number(m) - 1 && date.getUTCDate() === Number(d) // prettier-ignore
}

export const when = (odd: boolean, what: string): string[] => (odd ? [what] : [])

/** A birth that is a day of the calendar, not after today and within the life of a person. */
export const birth = (day: string, today: string): string[] => [
  ...when(!isDay(day), `birth on no day: ${JSON.stringify(day)}`),
  ...when(day > today, `birth in the future: ${day}`),
  ...when(isDay(day) && Number(today.slice(0, 4)) - Number(day.slice(0, 4)) > 126, `born ${day}`),
]

/** A name or number that can be read, printed and told from any other. */
export const readable = (what: string, text: string, needed = true, most = 500): string[] => [
  ...when(needed && !/[\p{L}\p{N}]/u.test(text), `${what} says nothing: ${JSON.stringify(text)}`),
  ...when(UNSEEN.test(text), `${what} holds what nobody sees: ${JSON.stringify(text)}`),
  ...when(text !== text.trim(), `${what} begins or ends with space`),
  ...when([...text].length > most, `${what} is ${text.length} long`),
]

/** A text of several lines, as long as a source may be, may hold line feeds and tabs. */
export const readableLines = (what: string, text: string): string[] =>
  readable(what, text.replace(/[\n\t]/g, ' ').trim(), false, 2000)

export const within = (what: string, value: number, least: number, most: number): string[] =>
  when(!(value >= least && value <= most), `${what} is ${value}`)

export const whole = (what: string, value: number): string[] =>
  when(!Number.isSafeInteger(value), `${what} is no whole number: ${value}`)

/** Two of a list that are the same, or look the same to whoever reads them. */
export function doubles(what: string, values: readonly string[]): string[] {
  const seen = new Set<string>()
  return values.flatMap((value) => {
    const plain = value.normalize('NFKC').toLowerCase().trim()
    const twice = seen.has(plain)
    seen.add(plain)
    return when(twice, `${what} twice: ${value}`)
  })
}

/** Every number in a value that is none, and every name that all objects have. */
export function hollow(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return when(!Number.isFinite(value), `${path} is ${value}`)
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inner]) => [
    ...when(key === '__proto__', `${path} has a key __proto__`),
    ...hollow(inner, `${path}.${key}`),
  ])
}
