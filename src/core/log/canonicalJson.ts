import { DEEPEST } from '../text/scanJson.ts'

/**
 * JSON in the one form that RFC 8785 (JSON Canonicalization Scheme) allows: keys in order of their UTF-16 code units,
 * no space, numbers as ECMAScript writes them. Two equal values always give the same text, so it can be hashed.
 * A property that is `undefined` is left out, as `JSON.stringify` does.
 * @throws RangeError for what JSON cannot hold: a number that is not finite, half a surrogate pair, a function, a hole;
 * and for more levels than any file read here has, before the stack can run out.
 */
export function canonicalJson(value: unknown, deepest = DEEPEST): string {
  if (value === null || typeof value === 'boolean') return String(value)
  if (typeof value === 'number') return numberText(value)
  if (typeof value === 'string') return stringText(value)
  if (Array.isArray(value))
    return `[${value.map((item) => canonicalJson(item, within(deepest))).join(',')}]`
  if (typeof value === 'object')
    return objectText(value as Readonly<Record<string, unknown>>, within(deepest))
  throw new RangeError(`JSON cannot hold a value of type ${typeof value}.`)
}

/** One level further in. */
function within(deepest: number): number {
  if (deepest <= 0) throw new RangeError(`The value is nested deeper than ${DEEPEST} levels.`)
  return deepest - 1
}

function numberText(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`JSON cannot hold the number ${value}.`)
  return JSON.stringify(value)
}

function stringText(value: string): string {
  if (!isWellFormed(value)) throw new RangeError('JSON cannot hold half a surrogate pair.')
  return JSON.stringify(value)
}

function objectText(value: Readonly<Record<string, unknown>>, deepest: number): string {
  const keys = Object.keys(value).filter((key) => value[key] !== undefined)
  return `{${keys
    .sort(byCodeUnit)
    .map((key) => `${stringText(key)}:${canonicalJson(value[key], deepest)}`)
    .join(',')}}`
}

const byCodeUnit = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

/** `String.prototype.isWellFormed` is newer than the library level that core is held to. */
const isWellFormed = (text: string): boolean =>
  !/[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/.test(text)
