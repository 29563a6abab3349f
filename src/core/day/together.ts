import type { Patient } from '../order/order.ts'
import { pairKey, type ListedItem, type Tie } from './dayState.ts'
import type { ListedOrder } from './listedOrder.ts'

/** Why two orders of one patient are not proposed to share a draw. */
export const APART_REASONS = [
  /** A person said so. */
  'said',
  /** One is invented, the other is not. */
  'otherInvented',
  /** One is drawn at a time of its own. */
  'timed',
  /** Both ask for one test: an order listed twice, or a sample of another time. */
  'sameTest',
  /** Each needs an identity check and a sample of its own, for transfusion. */
  'ownIdentity',
  /** It is the recollection of something. */
  'recollection',
  /** One is drawn several times. */
  'series',
  /** The patient is to be found at different places. */
  'otherPlace',
  'otherWay',
] as const
export type ApartReason = (typeof APART_REASONS)[number]

/** What of the catalogue decides whether two orders may share a draw. */
export interface SharingRules {
  /** Tests whose samples need an identity check of their own each time. */
  readonly ownIdentity: ReadonlySet<string>
  /** Codes of series, and of tests in which a series is seen. */
  isSeries(tests: readonly string[]): boolean
}

/** One person on the list: number, birth date and name must all be the same. */
export function personKey({ recordNumber, birthDate, fullName }: Patient): string {
  const name = fullName.normalize('NFC').toLowerCase().replace(/\s+/g, ' ').trim()
  return JSON.stringify([recordNumber.trim(), birthDate, name])
}

/** Why these two are not proposed to share a draw; `undefined`: they may. A person's word goes before all of it. */
export function whyApart(
  a: ListedOrder,
  b: ListedOrder,
  ties: ReadonlyMap<string, Tie>,
  rules: SharingRules,
): ApartReason | undefined {
  if (a.invented !== b.invented) return 'otherInvented'
  const tie = ties.get(pairKey(a.id, b.id))
  if (tie) return tie === 'apart' ? 'said' : undefined
  if (a.recollects || b.recollects) return 'recollection'
  if (isTimedElsewhere(a, b)) return 'timed'
  if (rules.isSeries(a.order.tests) || rules.isSeries(b.order.tests)) return 'series'
  if (bothHave(a, b, rules.ownIdentity)) return 'ownIdentity'
  if (a.order.tests.some((test) => b.order.tests.includes(test))) return 'sameTest'
  if (a.place && b.place && a.place.kind !== b.place.kind) return 'otherPlace'
  return a.collecting === b.collecting ? undefined : 'otherWay'
}

const bothHave = (a: ListedOrder, b: ListedOrder, tests: ReadonlySet<string>): boolean =>
  [a, b].every(({ order }) => order.tests.some((test) => tests.has(test)))

/** Two times go together only where they are the same to the minute: a draw has one time. */
function isTimedElsewhere({ due: a }: ListedOrder, { due: b }: ListedOrder): boolean {
  const timed = [a, b].filter((due) => due?.kind === 'timed')
  if (timed.length === 0) return false
  return Math.abs((a?.at_ms ?? Infinity) - (b?.at_ms ?? -Infinity)) >= 60_000
}

/** Orders in the groups in which they share a draw, in the order in which they are given. */
export function groupsOf(
  items: readonly ListedItem[],
  ties: ReadonlyMap<string, Tie>,
  rules: SharingRules,
): readonly (readonly ListedItem[])[] {
  const groups: ListedItem[][] = []
  const byPerson = new Map<string, ListedItem[][]>()
  for (const item of items) {
    const person = personKey(item.order.patient)
    const own = byPerson.get(person) ?? []
    const group = own.find((each) =>
      each.every((other) => whyApart(other.order, item.order, ties, rules) === undefined),
    )
    if (group) group.push(item)
    else {
      const begun = [item]
      groups.push(begun)
      byPerson.set(person, [...own, begun])
    }
  }
  return groups
}
