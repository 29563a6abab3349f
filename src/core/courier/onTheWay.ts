import type { BenchRow, Latest } from '../bench/benchBoard.ts'
import type { Catalogue } from '../catalogue/catalogue.ts'
import type { Laboratory } from '../catalogue/laboratories.ts'
import { packList, type PackGroup } from './packList.ts'
import { specimenKey, type PackSpecimen } from './packSpecimen.ts'
import { deadlines } from './transport.ts'

const MINUTE_ms = 60_000
/** A day; a longer way is taken for a slip of the keys. */
const MOST_min = 1440

/** What must have happened to a carried specimen by when. */
export type WayLimit = Omit<Latest, 'isOver'>

/** A specimen that a person brings to the laboratory. */
export interface CarriedSpecimen {
  readonly specimen: PackSpecimen
  /** Where it goes and how it travels: the pack that it would be in. */
  readonly pack: PackGroup
  /** The nearest first; none where nothing known here runs out. */
  readonly limits: readonly WayLimit[]
  /** What has run out already. */
  readonly passed: readonly WayLimit[]
  /** What runs out between now and arrival. */
  readonly late: readonly WayLimit[]
}

/** What of the site carrying needs. */
interface CarryingSite {
  readonly laboratories: readonly Laboratory[]
  readonly catalogue: Catalogue
}

/**
 * Specimens of patients that are still here, as one person carries them: what is due first above, what has no limit
 * last. Limits are those of the bench, which also knows of clotting and of the cells, else those of the tests.
 * @param way_min how long the way takes from now; `undefined`: nobody said
 */
export function onTheWay(
  specimens: readonly PackSpecimen[],
  board: readonly BenchRow[],
  { laboratories, catalogue }: CarryingSite,
  now_ms: number,
  way_min: number | undefined,
): readonly CarriedSpecimen[] {
  const atBench = new Map(board.map((row) => [specimenKey(row.specimen), row.limits]))
  const arrival_ms = now_ms + (way_min ?? 0) * MINUTE_ms
  return packList(specimens, laboratories, catalogue)
    .filter(({ invented }) => !invented)
    .flatMap((pack) =>
      pack.specimens.map((specimen): CarriedSpecimen => {
        const limits =
          atBench.get(specimenKey(specimen)) ??
          deadlines(specimen, catalogue).map(({ test, by_ms }): WayLimit => ({
            at_ms: by_ms,
            of: 'test',
            test,
          }))
        const passed = limits.filter(({ at_ms }) => at_ms < now_ms)
        const late = limits.filter(({ at_ms }) => at_ms >= now_ms && at_ms < arrival_ms)
        return { specimen, pack, limits, passed, late }
      }),
    )
    .sort(
      (a, b) => nearest_ms(a) - nearest_ms(b) || (a.specimen.number < b.specimen.number ? -1 : 1),
    )
}

/** Far in time to come, and a number that can be subtracted from itself. */
const nearest_ms = ({ limits }: CarriedSpecimen): number =>
  limits[0]?.at_ms ?? Number.MAX_SAFE_INTEGER

/** The length of a way as it was typed, whole minutes of at most a day; `undefined` for anything else. */
export function wayMinutes(typed: string): number | undefined {
  const text = typed.trim()
  return /^\d{1,4}$/.test(text) && Number(text) <= MOST_min ? Number(text) : undefined
}
