import type { TestRow, TubeRow } from '../catalogue/catalogue.ts'
import type { TubePreference } from '../catalogue/preferences.ts'
import { norm, type Norms } from '../catalogue/norms.ts'
import type { Priority } from '../order/order.ts'
import type { DemandRow, RankRow } from './packing/packing.ts'
import type { PackProblem } from './packing/packProblem.ts'
import { sharingKey } from './sharingVariants.ts'
import { bloodFor_uL, specimenYield } from './specimenYield.ts'
import { fillOf_mL, type UsableTube } from './usableStock.ts'

/** What the yield of a tube and the liking of a specimen depend on. */
export interface SpecimenConditions {
  readonly norms: Norms
  readonly haematocrit_pct: number
  /** Tubes preferred for some tests, by the site's own file. */
  readonly preferences?: readonly TubePreference[]
  readonly priority?: Priority
}

/** `reserve`: preferred volumes, and some of the tube left over in case it draws less than its label says. */
export type Level = 'reserve' | 'preferred' | 'least'

/** The tests and the tubes on hand as a problem of packing, in whole µL. */
export function packProblem(
  tests: readonly TestRow[],
  stock: readonly UsableTube[],
  level: Level,
  conditions: SpecimenConditions,
): PackProblem {
  const { norms } = conditions
  const room_uL = (usable: UsableTube): number =>
    capacity_uL(usable) - (level === 'reserve' ? reserve_uL(usable.tube, norms) : 0)
  const rows = tests.map((test) => {
    const preferred = fullDemands(test, stock, test.preferred_mL, conditions)
    const whole = level === 'least' || preferred.every((demand) => demand === undefined)
    const row = whole ? fullDemands(test, stock, test.least_mL, conditions) : preferred
    // What fits the whole tube is not kept out of it by the reserve: it then has the tube for itself.
    return row.map((demand, k) => {
      const usable = stock[k]
      return demand === undefined || !usable ? undefined : Math.min(demand, room_uL(usable))
    })
  })
  return {
    rows,
    ranks: tests.map((test, i) => ranksOf(test, stock, rows[i] ?? [], conditions)),
    sharing: tests.map((test) => sharingKey(test)),
    kinds: stock.map((usable) => ({
      capacity_uL: room_uL(usable),
      blood_uL: Math.round(fillOf_mL(usable) * 1000),
      count: usable.count,
    })),
  }
}

/** Blood each tube on hand would have to give for a volume of a test's specimen; `undefined` where it cannot. */
export function fullDemands(
  test: TestRow,
  stock: readonly UsableTube[],
  specimen_mL: number,
  { norms, haematocrit_pct }: SpecimenConditions,
): DemandRow {
  return stock.map((usable) => {
    const need = test.accepts.find((n) => n.additive === usable.tube.additive)
    if (!need) return undefined
    const demand = bloodFor_uL(specimen_mL, specimenYield(need.kind, haematocrit_pct, norms))
    return demand <= capacity_uL(usable) ? demand : undefined
  })
}

function capacity_uL(usable: UsableTube): number {
  return Math.round((fillOf_mL(usable) - usable.tube.dead_mL) * 1000)
}

/** None for what a person fills to its mark, nor for a tube that is refused unless it is nearly full. */
function reserve_uL({ nominal_mL, fillsBy, leastFill_pct }: TubeRow, norms: Norms): number {
  return fillsBy === 'mark' || leastFill_pct >= 90
    ? 0
    : Math.ceil(nominal_mL * 10 * norm(norms, 'tubeReserve_pct'))
}

/** Places in the test's list of preferences, counted among what is on hand, so that the best one there is place 0. */
function ranksOf(
  test: TestRow,
  stock: readonly UsableTube[],
  row: DemandRow,
  { priority }: SpecimenConditions,
): RankRow {
  // Serum has to clot for half an hour first: for a stat order plasma comes before it (common practice, no source).
  const waits = ({ kind }: TestRow['accepts'][number]): number => Number(kind === 'serum')
  const liked =
    priority === 'stat' ? [...test.accepts].sort((a, b) => waits(a) - waits(b)) : test.accepts
  const here = liked
    .map(({ additive }) => additive)
    .filter((name) => stock.some(({ tube }, k) => tube.additive === name && row[k] !== undefined))
  return stock.map(({ tube }) => Math.max(0, here.indexOf(tube.additive)))
}
