import { faulty, type Result } from '../../core/basics/result.ts'

/** A reading with no more faults than a person reads, and how many there are beyond them. */
export interface Shortened<T, F> {
  readonly reading: Result<T, F>
  readonly more: number
}

const MOST_SHOWN = 50

/** The first faults of a reading: a file can hold more than can be shown, or passed on, in good time. */
export function firstFaults<T, F>(reading: Result<T, F>): Shortened<T, F> {
  if (reading.ok || reading.faults.length <= MOST_SHOWN) return { reading, more: 0 }
  const { faults } = reading
  return { reading: faulty(faults.slice(0, MOST_SHOWN)), more: faults.length - MOST_SHOWN }
}
