import { plannedFill_mL, type Fill } from '../plan/plan.ts'
import type { SetAside } from './events.ts'
import { allPunctures, planned } from './facts.ts'
import type { Blood, DrawState } from './state.ts'
import { defined } from '../basics/defined.ts'

interface Filled {
  readonly on?: unknown
  readonly fill?: Fill
  readonly estimate_mL?: number
}

/**
 * Blood that went into one tube, whatever became of the tube: the planned fill for a full one, the estimate for a
 * short one. It counts against the patient's limit also in a tube that broke, was the wrong one or is thrown away.
 */
export function bloodIn(
  { on, fill, estimate_mL }: Filled,
  planned_mL: number,
  why?: SetAside,
): Blood {
  if (on === undefined || fill === 'empty') return { least_mL: 0, most_mL: 0 }
  // Nothing flows into a tube without vacuum.
  if (fill === undefined && why === 'noVacuum') return { least_mL: 0, most_mL: 0 }
  const known = estimate_mL ?? (fill === 'full' ? planned_mL : undefined)
  return { least_mL: known ?? 0, most_mL: known ?? planned_mL }
}

function addBlood(all: readonly Blood[]): Blood {
  return {
    least_mL: all.reduce((sum, { least_mL }) => sum + least_mL, 0),
    most_mL: all.reduce((sum, { most_mL }) => sum + most_mL, 0),
  }
}

/**
 * All blood taken in this draw so far, with discard, short, dropped and set-aside tubes, and with what was left in a
 * syringe: blood of its tubes was in it before.
 */
export function bloodTaken(s: DrawState): Blood {
  const inTubes = [
    ...s.lost,
    ...s.tubes.map((tube) => ({
      ...bloodIn(tube, fill_mL(s, tube.id)),
      ...defined({ puncture: tube.puncture }),
    })),
  ]
  const syringes = allPunctures(s).flatMap(({ number, pulled }) =>
    pulled ? [{ number, pulled }] : [],
  )
  const byHolder = inTubes.filter(
    ({ puncture }) => !syringes.some(({ number }) => number === puncture),
  )
  const bySyringe = syringes.map(({ number, pulled }): Blood => {
    const into = addBlood(inTubes.filter(({ puncture }) => puncture === number))
    return {
      least_mL: Math.max(pulled.least_mL, into.least_mL),
      most_mL: Math.max(pulled.most_mL, into.least_mL),
    }
  })
  return addBlood([...byHolder, ...bySyringe])
}

/** Blood that is planned in a tube, mL; 0 for one that no plan names. */
export function fill_mL(s: DrawState, tubeId: string): number {
  const tube = planned(s, tubeId) ?? s.opened.plan.tubes.find(({ id }) => id === tubeId)
  return tube ? plannedFill_mL(tube) : 0
}

/**
 * What may be taken in this draw, mL: the limit of the opening, or what was planned and approved beyond it; `undefined`
 * where no limit was worked out.
 */
export function mayTake_mL(s: DrawState): number | undefined {
  const { limit_mL, period_mL, earlier_mL, draw_mL } = s.opened.plan.blood
  const left_mL = period_mL === undefined ? undefined : period_mL - earlier_mL
  const least = Math.min(limit_mL ?? Infinity, left_mL ?? Infinity)
  return Number.isFinite(least) ? Math.max(least, draw_mL) : undefined
}

/** With the tube that is to go on the draw would pass its limit, and nobody has decided that it may. */
export function overLimit(s: DrawState, tubeId: string | undefined): boolean {
  const most_mL = mayTake_mL(s)
  // Blood in a syringe was taken already.
  if (s.puncture.pulled) return false
  if (tubeId === undefined || most_mL === undefined || s.bloodApproved) return false
  return bloodTaken(s).most_mL + fill_mL(s, tubeId) > most_mL + 1e-9
}

/** With so much in the syringe the draw passes its limit, and nobody has decided that it may. */
export function pullsOverLimit(s: DrawState, blood_mL: number): boolean {
  const most_mL = mayTake_mL(s)
  if (most_mL === undefined || s.bloodApproved) return false
  return bloodTaken(s).most_mL + blood_mL > most_mL + 1e-9
}
