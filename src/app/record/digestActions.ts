import type { AppActions } from '../appApi.ts'
import type { AppParts } from '../appDeps.ts'
import { drawDigest, type DrawDigest } from '../view/drawDigest.ts'

/** So many are read before the screen is told: often enough to be seen coming, seldom enough to press meanwhile. */
const BATCH_n = 10

/** Reads what the list of draws tells of each: once, a few at a time, and nothing while the records are locked. */
export function createDigestActions({ get, set, logs }: AppParts): Pick<AppActions, 'readDigests'> {
  const asked = new Set<string>()
  const isLocked = (): boolean => get().lock.state === 'locked'

  async function read(drawId: string): Promise<readonly (readonly [string, DrawDigest])[]> {
    try {
      const log = await logs.load(drawId)
      return log ? [[drawId, drawDigest(log)]] : []
    } catch {
      // The row stands without it; opening the record says what is wrong.
      return []
    }
  }

  return {
    readDigests: async (drawIds) => {
      const open = drawIds.filter((id) => !asked.has(id) && !get().digests.has(id))
      for (const id of open) asked.add(id)
      for (let at = 0; at < open.length && !isLocked(); at += BATCH_n) {
        const batch = await Promise.all(open.slice(at, at + BATCH_n).map(read))
        // What names a patient does not come back onto a page that was locked meanwhile.
        if (isLocked()) break
        set({ digests: new Map([...get().digests, ...batch.flat()]) })
      }
      for (const id of open) asked.delete(id)
    },
  }
}
