import { plannedFill_mL } from '../plan/plan.ts'
import type { BenchRow } from './benchBoard.ts'
import type { SpinNeed } from './benchRules.ts'
import { rpmFor, type Rotor } from './rcf.ts'
import { balance } from './rotorBalance.ts'

/** One place of the rotor: a tube, a blank as full as those against it, or nothing. */
export type RotorPlace =
  | { readonly kind: 'tube'; readonly row: BenchRow }
  | { readonly kind: 'blank'; readonly like: BenchRow }
  | { readonly kind: 'free' }

export interface SpinRun extends SpinNeed {
  readonly rows: readonly BenchRow[]
  readonly rpm: number
  /** The rotor does not turn as fast. */
  readonly isTooFast: boolean
  readonly places: readonly RotorPlace[]
  readonly blanks: number
}

/**
 * Tubes that may be spun together now: clotted, never spun, of one force, time and temperature. Each run fits the
 * rotor in balance; what is left over makes a further one, those with the nearest limit first. Practice never turns
 * with specimens of patients.
 */
export function spinRuns(rows: readonly BenchRow[], rotor: Rotor): readonly SpinRun[] {
  const groups = new Map<string, BenchRow[]>()
  for (const row of rows) {
    const { spin, step, specimen } = row
    if (step !== 'spin' || !spin || specimen.way.spins.length > 0) continue
    const key = `${specimen.invented} ${spin.g} ${spin.min} ${spin.temperature}`
    groups.set(key, [...(groups.get(key) ?? []), row])
  }
  return [...groups.values()].flatMap((group) => runsOf(group, rotor))
}

function runsOf(group: readonly BenchRow[], rotor: Rotor): readonly SpinRun[] {
  const runs: SpinRun[] = []
  let left = group
  while (left.length > 0) {
    const run = largest(left, rotor)
    if (!run) break
    runs.push(run)
    left = left.slice(run.rows.length)
  }
  return runs
}

function largest(rows: readonly BenchRow[], rotor: Rotor): SpinRun | undefined {
  const [first] = rows
  if (!first?.spin) return undefined
  for (let count = Math.min(rows.length, rotor.places); count > 0; count--) {
    const chosen = rows.slice(0, count)
    const kinds = byKind(chosen)
    const found = balance(
      rotor.places,
      kinds.map(({ length }) => length),
    )
    if (!found) continue
    const places: RotorPlace[] = Array.from({ length: rotor.places }, () => ({ kind: 'free' }))
    let blanks = 0
    kinds.forEach((kind, nth) => {
      found[nth]?.tubes.forEach((place, of) => {
        const row = kind[of]
        if (row) places[place] = { kind: 'tube', row }
      })
      found[nth]?.blanks.forEach((place) => {
        const [like] = kind
        if (like) places[place] = { kind: 'blank', like }
        blanks++
      })
    })
    const rpm = rpmFor(rotor.radius_mm, first.spin.g)
    return { ...first.spin, rows: chosen, rpm, isTooFast: rpm > rotor.most_rpm, places, blanks }
  }
  return undefined
}

/** The same tube and as much in it: gel, glass and a part fill weigh differently, and opposites must weigh the same. */
function byKind(rows: readonly BenchRow[]): readonly (readonly BenchRow[])[] {
  const kinds = new Map<string, BenchRow[]>()
  for (const row of rows) {
    const { tube, fill } = row.specimen
    const filled = fill === 'short' ? tube.id + row.specimen.drawId : plannedFill_mL(tube)
    const key = `${tube.tubeCode} ${filled}`
    kinds.set(key, [...(kinds.get(key) ?? []), row])
  }
  return [...kinds.values()]
}
