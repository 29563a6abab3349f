import { phoneLoss, phoneSubstitution } from './phones.ts'

/**
 * Weighted edit distance of two pronunciations for each phone of the longer one: 0 the same, about 0.7 nothing alike.
 * @param a, b ARPAbet phones without stress
 */
export function phoneDistance(a: readonly string[], b: readonly string[]): number {
  let row = b.reduce<number[]>((costs, phone) => [...costs, last(costs) + phoneLoss(phone)], [0])
  for (const from of a) {
    const next = [(row[0] ?? 0) + phoneLoss(from)]
    b.forEach((to, j) => {
      next.push(
        Math.min(
          (row[j] ?? 0) + phoneSubstitution(from, to),
          (row[j + 1] ?? 0) + phoneLoss(from),
          last(next) + phoneLoss(to),
        ),
      )
    })
    row = next
  }
  return last(row) / Math.max(1, a.length, b.length)
}

const last = (costs: readonly number[]): number => costs.at(-1) ?? 0
