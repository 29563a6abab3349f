/** Whoever wants to be told. */
export interface Listeners<T> {
  readonly add: (listener: (value: T) => void) => () => void
  tell(value: T): void
}

export function listeners<T>(): Listeners<T> {
  const all = new Set<(value: T) => void>()
  return {
    add(listener) {
      all.add(listener)
      return () => void all.delete(listener)
    },
    tell: (value) => [...all].forEach((listener) => listener(value)),
  }
}
