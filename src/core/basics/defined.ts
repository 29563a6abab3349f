/** `T` without the keys that were undefined: what may be absent is absent, never present and undefined. */
type Defined<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>
}

/** The same object without the keys whose value is undefined. */
export function defined<const T extends object>(object: T): Defined<T> {
  return Object.fromEntries(
    Object.entries(object).filter(([, value]) => value !== undefined),
  ) as Defined<T>
}
