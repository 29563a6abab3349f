import { packSpecimens, type PackSpecimen } from '../../core/courier/packSpecimen.ts'
import type { AppParts } from '../appDeps.ts'

/** No specimen waits longer for a courier than that: a culture is examined within a day, the longest limit is less. */
const LOOK_BACK_ms = 4 * 86_400_000

/** Specimens of the last days, and the draws whose records did not read. */
interface RecentSpecimens {
  readonly specimens: readonly PackSpecimen[]
  readonly unread: readonly string[]
}

/** Reads every closed draw of the last days; one that cannot be read does not hold up the others. */
export async function readSpecimens({
  logs,
  clock,
}: Pick<AppParts, 'logs' | 'clock'>): Promise<RecentSpecimens> {
  const since_ms = clock.read().wall_ms - LOOK_BACK_ms
  const stored = await logs.list()
  const recent = stored.filter(({ closed, opened_ms }) => closed && opened_ms >= since_ms)
  const read = await Promise.all(
    recent.map(async ({ drawId }) => {
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
