/** A name as it stands at the top left of a label. */
export interface FittedName {
  readonly lines: readonly string[]
  /** Something of the name is not printed; the record number must be compared. */
  readonly shortened: boolean
}

/** How wide a line is, in the unit of the width it is fitted to. */
type Measure = (line: string) => number
const letters: Measure = (line) => [...line].length

/**
 * Fits a name into the lines of a label. The whole name is kept if two lines hold it; then given names in the middle
 * become initials; only what is still too long is cut, and the cut is marked. The first and the last part always stay.
 * The rules for long names in CLSI AUTO12-A are not free to read: these are ours.
 * @param width of a line: characters, or whatever `measure` gives.
 */
export function fitName(
  fullName: string,
  width: number,
  most = 2,
  measure: Measure = letters,
): FittedName {
  const parts = fullName.trim().split(/\s+/)
  const whole = wrap(parts, width, measure)
  if (whole.length <= most && fits(whole, width, measure)) return { lines: whole, shortened: false }
  const initials = parts.map((part, index) =>
    index === 0 || index === parts.length - 1 ? part : `${[...part][0] ?? ''}.`,
  )
  const short = wrap(initials, width, measure)
  if (short.length <= most && fits(short, width, measure)) return { lines: short, shortened: true }
  const ends = [parts[0] ?? '', parts.length > 1 ? (parts.at(-1) ?? '') : ''].filter(Boolean)
  return { lines: ends.map((part) => cut(part, width, measure)), shortened: true }
}

/**
 * The same with the family name first, `Invented, Alex`: it gives way last, and of the given names the first stays.
 * Without given names the text may be a full name of unknown parts.
 */
export function fitFamilyFirst(
  { family, given }: { readonly family: string; readonly given: string },
  width: number,
  measure: Measure = letters,
): FittedName {
  if (given === '') return fitName(family, width, 2, measure)
  const line = `${family}, ${given}`
  if (measure(line) <= width) return { lines: [line], shortened: false }
  const [first = '', ...more] = given.trim().split(/\s+/)
  const short = [first, ...more.map((part) => `${[...part][0] ?? ''}.`)].join(' ')
  const tries = [
    { lines: [`${family},`, given], shortened: false },
    { lines: wrap(line.split(/\s+/), width, measure), shortened: false },
    { lines: [`${family},`, short], shortened: true },
  ]
  const found = tries.find(({ lines }) => lines.length <= 2 && fits(lines, width, measure))
  const lines = [cut(`${family},`, width, measure), cut(short, width, measure)]
  return found ?? { lines, shortened: true }
}

function wrap(parts: readonly string[], width: number, measure: Measure): string[] {
  const lines: string[] = []
  for (const part of parts) {
    const last = lines.at(-1)
    if (last !== undefined && measure(`${last} ${part}`) <= width) {
      lines[lines.length - 1] = `${last} ${part}`
    } else {
      lines.push(part)
    }
  }
  return lines
}

const fits = (lines: readonly string[], width: number, measure: Measure): boolean =>
  lines.every((line) => measure(line) <= width)

function cut(part: string, width: number, measure: Measure): string {
  if (measure(part) <= width) return part
  const letters = [...part]
  while (letters.length > 1 && measure(`${letters.join('')}…`) > width) letters.pop()
  return `${letters.join('')}…`
}
