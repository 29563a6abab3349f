import type { Catalogue, StockTube, TestRow } from './catalogue.ts'

/** Something that a change of the catalogue would leave without what it needs. */
export interface Stranded {
  /** `test`: no tube is left for it. `lot`: tubes on hand of a tube that is gone. */
  readonly what: 'series' | 'dose' | 'preference' | 'test' | 'lot'
  /** What it is called: a test or series by its name, a lot by its number, others by the tests they are about. */
  readonly name: string
  /** The codes that would be missing. */
  readonly missing: readonly string[]
}

type Tables = Pick<Catalogue, 'tests' | 'tubes' | 'series' | 'doses' | 'preferences'>

/**
 * What names rows of `before` that are gone in `after`. A row under another code is gone under its old one. What was
 * without them before does not count: nothing is lost by this change.
 */
export function stranded(
  before: Tables,
  after: Pick<Catalogue, 'tests' | 'tubes'>,
  stock: readonly StockTube[],
): readonly Stranded[] {
  const lostTests = lost(before.tests, after.tests)
  const lostTubes = lost(before.tubes, after.tubes)
  const naming = (
    what: Stranded['what'],
    tests: readonly string[],
    name: string = tests.join(', '),
  ): readonly Stranded[] => {
    const missing = [...new Set(tests)].filter((code) => lostTests.has(code))
    return missing.length === 0 ? [] : [{ what, name, missing }]
  }
  const { series = [], doses = [], preferences = [] } = before
  return [
    ...series.flatMap(({ name, sittings }) =>
      naming(
        'series',
        sittings.flatMap(({ tests }) => tests),
        name,
      ),
    ),
    ...doses.flatMap(({ tests }) => naming('dose', tests)),
    ...preferences.flatMap(({ id, tests }) => naming('preference', tests, id)),
    ...after.tests
      .filter((test) => hasTube(test, before) && !hasTube(test, after))
      .map(({ name, accepts }) => ({
        what: 'test' as const,
        name,
        missing: accepts.map(({ additive }) => additive),
      })),
    ...stock
      .filter(({ tubeCode }) => lostTubes.has(tubeCode))
      .map(({ lot, tubeCode }) => ({ what: 'lot' as const, name: lot, missing: [tubeCode] })),
  ]
}

interface Coded {
  readonly code: string
}

function lost(before: readonly Coded[], after: readonly Coded[]): ReadonlySet<string> {
  const kept = new Set(after.map(({ code }) => code))
  return new Set(before.map(({ code }) => code).filter((code) => !kept.has(code)))
}

const hasTube = ({ accepts }: TestRow, { tubes }: Pick<Catalogue, 'tubes'>): boolean =>
  accepts.some(({ additive }) => tubes.some((tube) => tube.additive === additive))
