import type { CountedDraw } from '../catalogue/countedStock.ts'
import type { DrawLog } from '../protocol/entry.ts'
import { usedSupplies } from './usedSupplies.ts'
import { usedTubes } from './usedTubes.ts'

/** What the closed draw of a real patient took off the shelf; `undefined` for any other. */
export function countedDraw(log: DrawLog): CountedDraw | undefined {
  const opened = log.entries[0]?.event
  const closing = log.entries.find(({ event }) => event.type === 'drawClosed')
  if (!closing || opened?.type !== 'drawOpened' || opened.invented) return undefined
  const tubes = usedTubes(log).flatMap(({ tubeCode, lot }) =>
    lot === undefined ? [] : [{ code: tubeCode, lot }],
  )
  const supplies = usedSupplies(log).map((code) => ({ code }))
  return { drawId: log.drawId, closed_ms: closing.at.at_ms, used: [...tubes, ...supplies] }
}
