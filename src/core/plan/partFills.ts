import type { Chosen } from './chosen.ts'
import { leastFill_mL } from './citrate.ts'
import type { UsableTube } from './usableStock.ts'

/** Marks on a micro-collection tube are about this far apart, mL (common practice, no source). */
const MARK_mL = 0.1

/** The tubes on hand and, of those that may be filled in part, one for every mark from the least fill up. */
export function withPartFills(stock: readonly UsableTube[]): readonly UsableTube[] {
  return stock.flatMap((usable) =>
    usable.tube.partialFill
      ? [...marksOf(usable).map((part_mL) => ({ ...usable, part_mL })), usable]
      : [usable],
  )
}

/** The same choice, each tube that may be filled in part to no more than the mark its tests need. */
export function filledToNeed(chosen: Chosen): Chosen {
  const tubes = chosen.tubes.map((each) => {
    const { usable, used_mL } = each
    if (!usable.tube.partialFill) return each
    const needed_mL = used_mL + usable.tube.dead_mL - 1e-9
    const part_mL = marksOf(usable).find((mark) => mark >= needed_mL)
    return part_mL === undefined ? each : { ...each, usable: { ...usable, part_mL } }
  })
  return { ...chosen, tubes }
}

function marksOf({ tube }: UsableTube): readonly number[] {
  const least_mL = leastFill_mL(tube)
  const from = Math.floor(least_mL / MARK_mL + 1e-6) + 1
  const to = Math.ceil(tube.nominal_mL / MARK_mL - 1e-6) - 1
  const marks = Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => tenth(from + i))
  return [least_mL, ...marks].filter((mL) => mL < tube.nominal_mL)
}

const tenth = (marks: number): number => Math.round(marks * MARK_mL * 10) / 10
