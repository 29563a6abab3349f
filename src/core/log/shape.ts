import { isRecord } from '../basics/isRecord.ts'

/** Says what is wrong with a value, or `undefined` when it has the shape asked for. */
export type Shape = (value: unknown, path: string) => string | undefined

const want = (test: (value: unknown) => boolean, what: string): Shape => {
  return (value, path) => (test(value) ? undefined : `${path} should be ${what}`)
}

export const text: Shape = want((value) => typeof value === 'string', 'text')
export const flag: Shape = want((value) => typeof value === 'boolean', 'true or false')
export const number: Shape = want((value) => typeof value === 'number', 'a number')
/** `null` is what a length that could not be known (not finite) becomes in JSON. */
export const length: Shape = want((v) => typeof v === 'number' || v === null, 'a number')
export const count: Shape = want((v) => Number.isInteger(v) && Number(v) >= 0, 'a whole number')

export const oneOf = (values: readonly (string | number)[]): Shape =>
  want((value) => values.includes(value as string), `one of ${values.join(', ')}`)

export const optional =
  (shape: Shape): Shape =>
  (value, path) =>
    value === undefined ? undefined : shape(value, path)

export const listOf =
  (shape: Shape): Shape =>
  (value, path) =>
    Array.isArray(value)
      ? firstOf(value.map((item, index) => () => shape(item, `${path}[${index}]`)))
      : `${path} should be a list`

/** Fields named here must fit; others are let through, so that a later addition does not stop an older reader. */
export const shapeOf =
  (fields: Readonly<Record<string, Shape>>): Shape =>
  (value, path) => {
    if (!isRecord(value)) return `${path} should be an object`
    return firstOf(
      Object.entries(fields).map(
        ([name, shape]) =>
          () =>
            shape(value[name], `${path}.${name}`),
      ),
    )
  }

export const recordOf =
  (shape: Shape): Shape =>
  (value, path) =>
    isRecord(value)
      ? firstOf(Object.keys(value).map((key) => () => shape(value[key], `${path}.${key}`)))
      : `${path} should be an object`

const firstOf = (checks: readonly (() => string | undefined)[]): string | undefined => {
  for (const check of checks) {
    const fault = check()
    if (fault) return fault
  }
  return undefined
}
