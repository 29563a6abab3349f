import { setTimeout as sleep } from 'node:timers/promises'
import type { Hub } from '../../src/ports/hub.ts'
import { bytesOf, text } from './hubRig.ts'

export interface TabletTold {
  readonly retried: number
  /** Found as its own after an answer was lost. */
  readonly found: number
  /** Times the hub had less than it had confirmed. */
  readonly rewound: number
  /** The longest time between two confirmations. */
  readonly longest_ms: number
}

/**
 * A tablet that keeps its log and sends it: after every trouble and every new connection it goes through the whole log
 * at the hub again, and only then on.
 * @param wanted what its log says so far; more may come until `isOver`
 */
export async function sendLog(
  hub: Hub,
  log: string,
  wanted: () => readonly string[],
  isOver: () => boolean,
): Promise<TabletTold> {
  let [sent, at, isUnsure] = [0, 0, true]
  const told = { retried: 0, found: 0, rewound: 0, longest_ms: 0 }
  let before_ms = performance.now()
  const stop = hub.onState(() => (isUnsure = true))
  const confirmed = (sequence: number): void => {
    at = sequence
    sent += 1
    told.longest_ms = Math.max(told.longest_ms, performance.now() - before_ms)
    before_ms = performance.now()
  }
  while (sent < wanted().length || !isOver()) {
    if (hub.state().kind !== 'connected' || (sent >= wanted().length && !isUnsure)) {
      if (sent >= wanted().length) before_ms = performance.now()
      await sleep(15)
      continue
    }
    try {
      if (isUnsure) {
        isUnsure = false
        const there = await hub.read({ log }, 0)
        there.forEach(({ bytes }, i) => {
          if (text(bytes) !== wanted()[i]) throw new Error(`${log}: another entry ${i + 1}`)
        })
        if (there.length < sent) told.rewound += 1
        sent = there.length
        at = there.at(-1)?.sequence ?? 0
        continue
      }
      const word = wanted()[sent] ?? ''
      const outcome = await hub.append(log, 'entry', bytesOf(word), at)
      if (outcome.kind === 'stored') confirmed(outcome.sequence)
      else if (outcome.next && text(outcome.next.bytes) === word) {
        told.found += 1
        confirmed(outcome.next.sequence)
      } else isUnsure = true
    } catch (error) {
      if (!(error instanceof Error) || error.name !== 'HubError') throw error
      told.retried += 1
      isUnsure = true
      await sleep(40)
    }
  }
  stop()
  return told
}

/** What is wrong with the logs at a hub: lost, doubled, or in another order than they were written. */
export async function faultsAt(
  hub: Hub,
  logs: ReadonlyMap<string, readonly string[]>,
): Promise<{ readonly entries: number; readonly faults: readonly string[] }> {
  const all = await hub.read({}, 0)
  const there = new Map<string, string[]>()
  for (const entry of all)
    there.set(entry.log, [...(there.get(entry.log) ?? []), text(entry.bytes)])
  const faults = [...logs].flatMap(([log, wanted]) => {
    const found = there.get(log) ?? []
    const lost = wanted.filter((word) => !found.includes(word)).length
    const doubled = found.length - new Set(found).size
    const isSame = found.length === wanted.length && found.every((word, i) => word === wanted[i])
    return isSame ? [] : [`${log}: lost ${lost}, doubled ${doubled}, ${found.length} there`]
  })
  return { entries: all.length, faults }
}
