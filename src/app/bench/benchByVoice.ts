import { spinDeed } from '../../core/bench/spinDeed.ts'
import { spinRuns } from '../../core/bench/spinRuns.ts'
import { voicedGroup, voicedRun, type VoicedAct } from '../../core/bench/voicedGroup.ts'
import type { BenchRow } from '../../core/bench/benchBoard.ts'
import type { ActDone } from '../../core/day/dayEvents.ts'
import type { AppParts } from '../appDeps.ts'
import type { ActSeen, SaidOfBench, TubesOfDraw } from '../view/benchViewTypes.ts'
import { rotorOf, rotorText } from './rotorHere.ts'
import { tubesByDraw } from './tubesByDraw.ts'

/** What was done longer ago is taken back on the screen, where it can be seen what it was. */
const LAST_ms = 10 * 60_000

interface BenchByVoiceDeps {
  readonly parts: Pick<AppParts, 'get' | 'site' | 'clock'>
  /** Answers how many tubes it was charted for. */
  readonly act: (deed: ActDone, specimens: readonly TubesOfDraw[]) => Promise<number>
  readonly takeBack: (act: ActSeen) => Promise<number>
}

/** Acts that are said without naming tubes: only where the board leaves no choice which are meant. */
export function createBenchByVoice({ parts, act, takeBack }: BenchByVoiceDeps) {
  const { get, site, clock } = parts

  function meant(
    said: VoicedAct,
  ): { deed: ActDone; rows: readonly BenchRow[] } | 'none' | 'several' {
    const { bench, settings } = get()
    if (said === 'spinStarted') {
      const closed = bench.rows.filter(({ specimen }) => !specimen.isOpen)
      const run = voicedRun(spinRuns(closed, rotorOf(settings)))
      if (typeof run === 'string') return run
      return { deed: spinDeed(run, rotorText(settings, site.texts.bench)), rows: run.rows }
    }
    const rows = voicedGroup(said, bench.rows)
    if (typeof rows === 'string') return rows
    if (said === 'stored') {
      const where = rows[0]?.store?.where
      return where ? { deed: { type: 'stored', where }, rows } : 'several'
    }
    // What stands on the bag was not said; another name would be invented.
    if (said === 'bagged') return { deed: { type: said, bag: site.texts.bench.bagUnnamed }, rows }
    return { deed: { type: said }, rows }
  }

  return async (said: VoicedAct | 'takeBack'): Promise<SaidOfBench> => {
    if (said === 'takeBack') {
      const [last] = get().bench.acts
      if (!last || clock.read().wall_ms - last.at_ms > LAST_ms) return 'none'
      return { done: await takeBack(last) }
    }
    const found = meant(said)
    if (typeof found === 'string') return found
    return { done: await act(found.deed, tubesByDraw(found.rows)) }
  }
}
