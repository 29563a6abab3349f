import { ownValue } from '../../../core/basics/ownValue.ts'
import type { Verdict } from './useTables.ts'

/** A name or a number with what R4 says of its use and its time. */
export interface Used {
  readonly use?: string | undefined
  readonly value?: string | undefined
  readonly period?: { readonly end?: string | undefined } | undefined
}

interface Chosen {
  readonly chosen: (Used & { readonly value: string }) | undefined
  /** Other values that have as good a claim. */
  readonly others: readonly string[]
  readonly verdict: Verdict
}

/** Best first; a use that is not in R4's value set comes last and is asked about. */
const RANK: readonly (string | undefined)[] = ['official', 'usual', undefined]

/**
 * Of several names or numbers the one in use now: official before usual before one that says nothing of it.
 * What is old or whose time is over is never chosen.
 */
export function chooseByUse(
  all: readonly Used[],
  uses: Readonly<Record<string, Verdict>>,
  today: string,
): Chosen {
  const verdictOf = ({ use }: Used): Verdict =>
    use === undefined ? 'take' : (ownValue(uses, use) ?? 'ask')
  const rankOf = ({ use }: Used): number => {
    const rank = RANK.indexOf(use)
    return rank < 0 ? RANK.length : rank
  }
  const current = all
    .flatMap((each) => (each.value ? [{ ...each, value: each.value }] : []))
    .filter((each) => verdictOf(each) !== 'refuse' && !isOver(each.period?.end, today))
    .sort((a, b) => rankOf(a) - rankOf(b))
  const [chosen] = current
  if (!chosen) return { chosen, others: [], verdict: 'refuse' }
  const rivals = current.filter((each) => rankOf(each) === rankOf(chosen))
  const others = new Set(rivals.map(({ value }) => value).filter((value) => value !== chosen.value))
  return { chosen, others: [...others], verdict: verdictOf(chosen) }
}

/** The end of a period lies before today; a year alone ends with that year (R4, dateTime). */
export function isOver(end: string | undefined, today: string): boolean {
  if (end === undefined) return false
  const day = end.slice(0, 10)
  return day < today.slice(0, day.length)
}
