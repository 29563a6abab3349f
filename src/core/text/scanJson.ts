import { scalarEnd, skipSpace, stringEnd, type TokenEnd } from './jsonTokens.ts'

export type JsonFaultKind =
  'notJson' | 'breaksOff' | 'tooDeep' | 'doubledKey' | 'reservedKey' | 'tooLarge'

/** The first thing in a text that keeps it from being read as JSON. */
export interface JsonFault {
  readonly kind: JsonFaultKind
  /** Place in the text, from 0, in UTF-16 code units. */
  readonly at: number
  /** Names and numbers that lead to the place, `entry[2].resource.birthDate`. */
  readonly path: string
}

/** Deeper than any file that is read here, and shallow enough for everything that walks a value by calling itself. */
export const DEEPEST = 64

interface Level {
  readonly keys: Set<string> | undefined
  key: string
  index: number
}

/**
 * Looks through a text for the first fault, in one pass and without calling itself, so that neither length nor depth
 * of a file can bring it down. Stricter than `JSON.parse`: RFC 8259 section 4 says that names in an object should be
 * unique and that otherwise nobody knows which counts, so a name that stands twice is a fault; so are `__proto__`,
 * a number that no double can hold (section 6) and more levels than `deepest`.
 */
export function scanJson(text: string, deepest: number = DEEPEST): JsonFault | undefined {
  const levels: Level[] = []
  const fault = (kind: JsonFaultKind, at: number): JsonFault => ({ kind, at, path: pathOf(levels) })
  const broken = (at: number): JsonFault => fault(at >= text.length ? 'breaksOff' : 'notJson', at)
  let at = skipSpace(text, 0)
  for (;;) {
    const opened = text.charAt(at)
    if (opened === '{' || opened === '[') {
      if (levels.length >= deepest) return fault('tooDeep', at)
      levels.push({ keys: opened === '{' ? new Set() : undefined, key: '', index: 0 })
      at = skipSpace(text, at + 1)
      if (text.charAt(at) !== (opened === '{' ? '}' : ']')) {
        const named = nameAt(at)
        if (typeof named !== 'number') return named
        at = named
        continue
      }
    } else {
      const value = valueEnd(text, at)
      if ('brokenAt' in value) return broken(value.brokenAt)
      if (isTooLarge(text, at, value.end)) return fault('tooLarge', at)
      at = skipSpace(text, value.end)
    }
    const next = behindValue()
    if (next === undefined || typeof next !== 'number') return next
    at = next
  }

  /** After a value: closes what is complete and steps to the next value; nothing when the text is over. */
  function behindValue(): number | JsonFault | undefined {
    for (;;) {
      const level = levels.at(-1)
      const mark = text.charAt(at)
      if (!level) return at >= text.length ? undefined : broken(at)
      if (mark === (level.keys ? '}' : ']')) {
        levels.pop()
        at = skipSpace(text, at + 1)
        continue
      }
      if (mark !== ',') return broken(at)
      level.index += 1
      return nameAt(skipSpace(text, at + 1))
    }
  }

  /** In an object reads `"name":`; in a list there is nothing before a value. Gives the place of the value. */
  function nameAt(place: number): number | JsonFault {
    const level = levels.at(-1)
    if (!level?.keys) return place
    if (text.charAt(place) !== '"') return broken(place)
    const name = stringEnd(text, place)
    if ('brokenAt' in name) return broken(name.brokenAt)
    level.key = JSON.parse(text.slice(place, name.end)) as string
    if (level.key === '__proto__') return fault('reservedKey', place)
    if (level.keys.has(level.key)) return fault('doubledKey', place)
    level.keys.add(level.key)
    const colon = skipSpace(text, name.end)
    return text.charAt(colon) === ':' ? skipSpace(text, colon + 1) : broken(colon)
  }
}

const valueEnd = (text: string, at: number): TokenEnd =>
  text.charAt(at) === '"' ? stringEnd(text, at) : scalarEnd(text, at)

function isTooLarge(text: string, at: number, end: number): boolean {
  return /[-\d]/.test(text.charAt(at)) && !Number.isFinite(Number(text.slice(at, end)))
}

const pathOf = (levels: readonly Level[]): string =>
  levels
    .map(({ keys, key, index }) => (keys ? `.${key}` : `[${index}]`))
    .join('')
    .replace(/^\./, '')
