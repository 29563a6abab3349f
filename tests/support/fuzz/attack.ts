import { WIDE } from '../wide.ts'
import { mutants, type Mutant, type Seeds } from './mutants.ts'

/** 10,000 mutants in the wide run; in every other as many as a moment allows. */
export const MUTANTS = WIDE ? 4000 : 300
/** The wide run takes minutes. */
export const PATIENCE = { timeout: WIDE ? 600_000 : 60_000 }
/** The longest that a file may keep the reader, of processor time. */
const MOST_ms = 1000

/** What came of a mutant: nothing where it was refused, else what would be taken over. */
export type Reader<T> = (bytes: Uint8Array) => Promise<T | undefined> | T | undefined

export interface Attack<T> {
  readonly seeds: Seeds
  readonly read: Reader<T>
  /** What in an accepted file is nonsense, by a check that shares nothing with the reader. */
  readonly nonsense: (accepted: T, mutant: Mutant) => readonly string[]
}

export interface AttackResult {
  readonly accepted: number
  readonly refused: number
  /** One line for each mutant that threw, took too long, or was taken though it is nonsense. */
  readonly broken: readonly string[]
}

/** Reads every mutant and tells what went wrong. */
export async function attack<T>(
  { seeds, read, nonsense }: Attack<T>,
  count = MUTANTS,
): Promise<AttackResult> {
  // prettier-ignore
  const broken: string[] = []
  let accepted = 0
  for (const mutant of mutants(seeds, count)) {
    const before = process.cpuUsage()
    let value: T | undefined
    try {
      value = await read(mutant.bytes)
    } catch (error) {
      broken.push(`${mutant.seed}: threw ${String(error)}`)
      continue
    }
    const { user, system } = process.cpuUsage(before)
    const took_ms = (user + system) / 1000
    if (took_ms > MOST_ms) broken.push(`${mutant.seed}: took ${took_ms} ms`)
    if (value === undefined) continue
    accepted += 1
    const odd = mutant.mustBeRefused === undefined ? [] : [mutant.mustBeRefused]
    const found = [...odd, ...nonsense(value, mutant)]
    if (found.length > 0) broken.push(`${mutant.seed}: ${found.join('; ')}`)
  }
  return { accepted, refused: count - accepted, broken }
}

/** An object that a reader is given and must leave as it is: whoever changes it throws. */
export function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value)
    Object.values(value).forEach(frozen)
  }
  return value
}
