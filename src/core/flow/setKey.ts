import {
  GAUGES,
  NEEDLE_KINDS,
  WALLS,
  type NeedleKind,
  type NeedleSet,
  type Wall,
} from '../order/order.ts'

/** What of a set decides how fast blood runs, and what it is drawn into is not. */
interface SetKeyParts {
  readonly kind: NeedleKind
  readonly gauge: number
  /** Of a wall that nobody read from the packet the predictions rest on a guess: a kind of its own. */
  readonly wall: Wall | 'notRecorded'
  readonly needle_mm: number
  readonly tubing_mm: number
  readonly tubingBore_mm: number
}

/** The same text for sets that are the same for how fast blood runs: `winged 23 thin 19 305 1.14`. */
export function setKey(set: NeedleSet): string {
  const { kind, gauge, wall = 'notRecorded', needle_mm } = set
  const { tubing_mm, tubingBore_mm } = kind === 'winged' ? set : { tubing_mm: 0, tubingBore_mm: 0 }
  return [kind, gauge, wall, needle_mm, tubing_mm, tubingBore_mm].join(' ')
}

/** The parts of a key that `setKey` wrote. */
export function readSetKey(key: string): SetKeyParts {
  const [kind = '', gauge, wall = '', needle_mm, tubing_mm, tubingBore_mm] = key.split(' ')
  return {
    kind: NEEDLE_KINDS.find((each) => each === kind) ?? 'straight',
    gauge: Number(gauge),
    wall: WALLS.find((each) => each === wall) ?? 'notRecorded',
    needle_mm: Number(needle_mm),
    tubing_mm: Number(tubing_mm),
    tubingBore_mm: Number(tubingBore_mm),
  }
}

/** A set of that key, on no syringe. */
export function setOfKey(key: string): NeedleSet {
  const { wall, gauge, ...set } = readSetKey(key)
  const known = GAUGES.find((each) => each === gauge) ?? 21
  return { ...set, gauge: known, ...(wall !== 'notRecorded' && { wall }) }
}
