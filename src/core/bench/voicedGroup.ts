import type { BenchRow } from './benchBoard.ts'
import type { BenchStepId } from './benchSteps.ts'
import type { SpinRun } from './spinRuns.ts'

/** What may be said of tubes without naming them. */
export type VoicedAct = 'spinStarted' | 'spinEnded' | 'separated' | 'stored' | 'bagged'

/** The tubes that a phrase means; none is meant, or more than one group could be. */
export type VoicedGroup = readonly BenchRow[] | 'none' | 'several'

const STEP_OF: Readonly<Record<Exclude<VoicedAct, 'spinStarted'>, BenchStepId>> = {
  spinEnded: 'spinning',
  separated: 'separate',
  stored: 'store',
  bagged: 'bag',
}

/**
 * The tubes that the board shows as one group and for which an act is the next. Nothing is chosen for a person: where
 * two groups fit, none is taken. Of two runs in the centrifuge the one whose time is over is meant, if it is the only
 * one. Tubes of a draw that is not closed are left to its own screen.
 */
export function voicedGroup(act: Exclude<VoicedAct, 'spinStarted'>, rows: readonly BenchRow[]) {
  const here = rows.filter((row) => row.step === STEP_OF[act] && !row.specimen.isOpen)
  const groups = grouped(here, act)
  const over = groups.filter((group) => group.every(({ isDue }) => isDue))
  return onlyOne(act === 'spinEnded' && over.length === 1 ? over : groups)
}

/** The run that may be started; not one that the rotor here is too slow for, since that is no run of its own. */
export function voicedRun(runs: readonly SpinRun[]): SpinRun | 'none' | 'several' {
  const [first] = runs
  if (!first) return 'none'
  return runs.length > 1 || first.isTooFast ? 'several' : first
}

function onlyOne(groups: readonly (readonly BenchRow[])[]): VoicedGroup {
  const [first] = groups
  if (!first) return 'none'
  return groups.length > 1 ? 'several' : first
}

function grouped(
  rows: readonly BenchRow[],
  act: Exclude<VoicedAct, 'spinStarted'>,
): readonly (readonly BenchRow[])[] {
  const groups = new Map<string, BenchRow[]>()
  for (const row of rows) {
    const key = keyOf(row, act)
    groups.set(key, [...(groups.get(key) ?? []), row])
  }
  return [...groups.values()]
}

/** What makes tubes of one step a group: the run they turned in, the place they belong, the bag they share. */
function keyOf({ specimen, store }: BenchRow, act: VoicedAct): string {
  const { way, drawId } = specimen
  const spin = way.spins.at(-1)
  switch (act) {
    case 'stored':
      return store?.where ?? 'unknown'
    case 'bagged':
      return way.stored?.where ?? 'nowhere'
    default:
      return spin?.act ?? `${drawId} ${String(spin?.started.at_ms)}`
  }
}
