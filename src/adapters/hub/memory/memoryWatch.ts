import { HUB_START, type HubPosition } from '../../../core/hub/hubEntry.ts'
import type { HubScope, HubState, HubWatcher, KeyValue } from '../../../ports/hub.ts'
import { wakeIn } from '../../../ports/patience.ts'
import { inScope } from '../inScope.ts'
import type { MemoryServer } from './memoryServer.ts'

/** One device's link to the clinic in memory. */
export interface MemoryLink {
  readonly server: MemoryServer
  readonly state: () => HubState
  readonly onState: (observer: (state: HubState) => void) => () => void
}

/** Calls `connected` at each new connection, and `written` then and whenever something may have been written. */
function whileConnected(link: MemoryLink, connected: () => void, written: () => void): () => void {
  let waiting: (() => void) | undefined
  let isOn = true
  let isNew = true
  const look = (): void => {
    waiting = undefined
    if (!isOn || link.state().kind !== 'connected') return
    if (isNew) connected()
    isNew = false
    written()
  }
  const soon = (): void => {
    const lag_ms = link.server.lag_ms()
    if (lag_ms > 0) waiting ??= wakeIn(link.server.clock, lag_ms, look)
    else void Promise.resolve().then(look)
  }
  const stops = [
    link.server.onChange(soon),
    link.onState((state) => {
      if (state.kind !== 'connected') return
      isNew = true
      soon()
    }),
  ]
  soon()
  return () => {
    isOn = false
    waiting?.()
    for (const stop of stops) stop()
  }
}

/** Gives the entries of a scope, each once, and goes back to the first where the hub holds another past. */
export function watchMemoryEntries(
  link: MemoryLink,
  scope: HubScope,
  after: HubPosition,
  watcher: HubWatcher,
): () => void {
  let position = after
  let isOn = true
  let owesEnd = true
  const holds = ({ sequence, at_ms }: HubPosition): boolean =>
    sequence === 0 ||
    link.server.entries().some((entry) => entry.sequence === sequence && entry.at_ms === at_ms)
  const stop = whileConnected(
    link,
    () => {
      owesEnd = true
      if (holds(position)) return
      position = HUB_START
      watcher.rewound?.()
    },
    () => {
      const fresh = link.server.entries().filter(({ sequence }) => sequence > position.sequence)
      const ours = fresh.filter((entry) => inScope(scope, entry))
      for (const [i, entry] of ours.entries()) {
        if (!isOn) return
        position = entry
        watcher.entry(entry, ours.length - 1 - i)
      }
      position = fresh.at(-1) ?? position
      if (owesEnd && isOn) watcher.caughtUp?.()
      owesEnd = false
    },
  )
  return () => {
    isOn = false
    stop()
  }
}

/** Gives all values whose key begins so, then those that change. */
export function watchMemoryKeys(
  link: MemoryLink,
  first: string,
  onValue: (value: KeyValue) => void,
  onAll?: () => void,
): () => void {
  let known = new Map<string, number>()
  let isOn = true
  let owesAll = true
  const stop = whileConnected(
    link,
    () => {
      known = new Map()
      owesAll = true
    },
    () => {
      for (const value of link.server.values()) {
        if (!value.key.startsWith(`${first}/`) || known.get(value.key) === value.revision) continue
        if (!isOn) return
        known.set(value.key, value.revision)
        onValue(value)
      }
      if (owesAll && isOn) onAll?.()
      owesAll = false
    },
  )
  return () => {
    isOn = false
    stop()
  }
}
