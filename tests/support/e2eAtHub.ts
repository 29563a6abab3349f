import { drawLogName } from '../../src/core/hub/logNames.ts'
import { readEnvelope } from '../../src/core/hub/envelope.ts'
import type { LogEntry } from '../../src/core/protocol/entry.ts'
import type { Hub } from '../../src/ports/hub.ts'

/** How what stands at the hub differs from the records of the tablets. */
export interface HubCount {
  readonly entries: number
  readonly lost: number
  readonly doubled: number
  readonly wrongOrder: number
}

/**
 * Counts at the hub itself, past the app: the hash of an entry stands beside what is sealed, and a hash names all before
 * it.
 * @param records each draw as the tablet that wrote it last has it
 */
export async function countAtHub(
  hub: Hub,
  records: ReadonlyMap<string, readonly LogEntry[]>,
): Promise<HubCount> {
  const count = { entries: 0, lost: 0, doubled: 0, wrongOrder: 0 }
  for (const [drawId, log] of records) {
    const there = (await hub.read({ log: drawLogName(drawId), kind: 'entry' }, 0)).map(
      ({ bytes }) => {
        const read = readEnvelope(new TextDecoder().decode(bytes))
        if (!read.ok) throw new Error(`No envelope in ${drawId}: ${read.faults.join(', ')}`)
        return read.value.hash
      },
    )
    const wanted = log.map(({ hash }) => hash)
    const known = there.filter((hash) => wanted.includes(hash))
    const places = known.map((hash) => wanted.indexOf(hash))
    count.entries += wanted.length
    count.lost += wanted.filter((hash) => !there.includes(hash)).length
    count.doubled += there.length - new Set(there).size
    count.wrongOrder += places.filter((place, i) => i > 0 && place < (places[i - 1] ?? 0)).length
  }
  return count
}
