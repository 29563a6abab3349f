/** Hands values on to whoever observes. */
export interface Emitter<T> {
  /** Observes from now on; returns a way to end it. */
  readonly observe: (observer: (value: T) => void) => () => void
  readonly emit: (value: T) => void
}

export function createEmitter<T>(): Emitter<T> {
  const observers = new Set<(value: T) => void>()
  return {
    observe(observer) {
      // A wrapper of its own: the same function may observe twice and each end only its own.
      const mine = (value: T): void => observer(value)
      observers.add(mine)
      return () => void observers.delete(mine)
    },
    emit: (value) => [...observers].forEach((observer) => observer(value)),
  }
}
