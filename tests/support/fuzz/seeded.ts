/** Numbers that look random and come out the same for the same seed (mulberry32, from memory). */
export interface Seeded {
  /** From 0 up to but without 1. */
  next(): number
  /** A whole number from 0 up to but without `below`. */
  below(below: number): number
  one<T>(values: readonly [T, ...(readonly T[])]): T
}

export function createSeeded(seed: number): Seeded {
  let state = seed >>> 0
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
  const below = (most: number): number => Math.floor(next() * most)
  return { next, below, one: (values) => values[below(values.length)] ?? values[0] }
}
