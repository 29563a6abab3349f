import { packSpecimens, type PackSpecimen } from '../../core/courier/packSpecimen.ts'
import type { DayAct } from '../../core/day/dayState.ts'
import { layActsOver } from '../../core/day/layActsOver.ts'
import { createSeal } from '../../core/log/seal.ts'
import type { StoredDraw } from '../../ports/logStore.ts'
import type { AppParts } from '../appDeps.ts'

/** No specimen waits longer for a courier than that: a culture is examined within a day, the longest limit is less. */
const LOOK_BACK_ms = 4 * 86_400_000

/** Specimens of the last days, and the draws whose records did not read. */
interface RecentSpecimens {
  readonly specimens: readonly PackSpecimen[]
  readonly unread: readonly string[]
}

/**
 * Reads every closed draw of the last days, those of the clinic's other devices among them; one that cannot be read
 * does not hold up the others.
 * @param acts what the days' logs have, also what a draw's own device has not charted yet
 */
export async function readSpecimens(
  { logs, clock, clinic, sha256 }: Pick<AppParts, 'logs' | 'clock' | 'clinic' | 'sha256'>,
  acts: readonly DayAct[],
): Promise<RecentSpecimens> {
  const since_ms = clock.read().wall_ms - LOOK_BACK_ms
  const isRecent = (draw: StoredDraw): boolean => draw.closed && draw.opened_ms >= since_ms
  const far = new Set(clinic.draws().map(({ drawId }) => drawId))
  const stored = (await logs.list()).filter(({ drawId }) => !far.has(drawId))
  const recent = [...stored, ...clinic.draws()].filter(isRecent)
  const seal = createSeal(sha256)
  const counting = acts.filter(({ takenBack }) => !takenBack)
  const read = await Promise.all(
    recent.map(async ({ drawId }) => {
      const other = clinic.load(drawId)
      if (other && !other.fault) {
        return { drawId, log: layActsOver(other, counting, clock.read(), seal).log }
      }
      if (far.has(drawId)) return { drawId }
      const log = await logs.load(drawId).catch(() => undefined)
      return log && !log.fault ? { drawId, log } : { drawId }
    }),
  )
  const found = read.flatMap((each) => ('log' in each ? [each.log] : []))
  return {
    specimens: found.flatMap(packSpecimens),
    unread: read.flatMap((each) => ('log' in each ? [] : [each.drawId])),
  }
}
