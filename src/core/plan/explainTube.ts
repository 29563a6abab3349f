import type { NeedleSet } from '../order/order.ts'
import { drawGroup } from '../catalogue/orderOfDraw.ts'
import { lineVolume_mL } from '../flow/lineVolume.ts'
import type { ChosenTube } from './chooseTubes.ts'

/** Why this tube is in the rack and why it stands where it does. */
export function explainTube({ usable, tests, used_mL }: ChosenTube): string {
  const { tube } = usable
  const room = `${mL(used_mL)} of ${mL(tube.nominal_mL)} mL used`
  return `For ${named(tests.map((test) => test.name))}: ${room}. ${drawGroup(tube.additive).why}`
}

/** Why a discard tube leads the rack. */
export function explainDiscard(set: NeedleSet): string {
  return (
    `Winged set with citrate first: this tube takes the ${mL(lineVolume_mL(set))} mL of air in the tubing, ` +
    'so that the citrate tube fills. It need not be full. Throw it away.'
  )
}

/** `A`, `A and B`, `A, B and 3 more`. */
export function named(names: readonly string[]): string {
  const [first = '', second, ...more] = names
  if (second === undefined) return first
  return more.length === 0
    ? `${first} and ${second}`
    : `${first}, ${second} and ${more.length} more`
}

/** A volume as it is read aloud: at most one decimal. */
export function mL(volume: number): string {
  return String(Math.round(volume * 10) / 10)
}
