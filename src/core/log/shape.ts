import type { TextValues } from '../basics/fillText.ts'
import { isRecord } from '../basics/isRecord.ts'

/** What a value should have been; the wording is in the language's `log` file. */
export const WANTS = ['text', 'flag', 'number', 'count', 'time', 'oneOf', 'list', 'object'] as const
export type WantId = (typeof WANTS)[number]

/** Where a value has another shape than it should, and which it should have. */
export interface ShapeFault {
  readonly path: string
  readonly want: WantId
  readonly values: TextValues
}

/** Says what is wrong with a value, or `undefined` when it has the shape asked for. */
export type Shape = (value: unknown, path: string) => ShapeFault | undefined

const want = (test: (value: unknown) => boolean, what: WantId, values: TextValues = {}): Shape => {
  return (value, path) => (test(value) ? undefined : { path, want: what, values })
}

export const text: Shape = want((value) => typeof value === 'string', 'text')
export const flag: Shape = want((value) => typeof value === 'boolean', 'flag')
export const number: Shape = want((value) => typeof value === 'number', 'number')
/** `null` is what a length that could not be known (not finite) becomes in JSON. */
export const length: Shape = want((v) => typeof v === 'number' || v === null, 'number')
export const count: Shape = want((v) => Number.isInteger(v) && Number(v) >= 0, 'count')
/** A time beyond what `Date` can write is no time. */
export const time: Shape = want((v) => typeof v === 'number' && Math.abs(v) <= 8.64e15, 'time')

export const oneOf = (values: readonly (string | number)[]): Shape =>
  want((value) => values.includes(value as string), 'oneOf', { values: values.join(', ') })

export const optional =
  (shape: Shape): Shape =>
  (value, path) =>
    value === undefined ? undefined : shape(value, path)

export const listOf =
  (shape: Shape): Shape =>
  (value, path) => {
    if (!Array.isArray(value)) return { path, want: 'list', values: {} }
    for (const [index, item] of value.entries()) {
      const fault = shape(item, `${path}[${index}]`)
      if (fault) return fault
    }
    return undefined
  }

/** One value of a shape, or a list of such. */
export const oneOrMore =
  (shape: Shape): Shape =>
  (value, path) =>
    Array.isArray(value) ? listOf(shape)(value, path) : shape(value, path)

/** Fields named here must fit; others are let through, so that a later addition does not stop an older reader. */
export const shapeOf =
  (fields: Readonly<Record<string, Shape>>): Shape =>
  (value, path) => {
    if (!isRecord(value)) return { path, want: 'object', values: {} }
    for (const [name, shape] of Object.entries(fields)) {
      const own = Object.hasOwn(value, name) ? value[name] : undefined
      const fault = shape(own, `${path}.${name}`)
      if (fault) return fault
    }
    return undefined
  }
