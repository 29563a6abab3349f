import { createEmitter } from '../../../core/basics/emitter.ts'
import type { Clock } from '../../../ports/clock.ts'
import type { Hub } from '../../../ports/hub.ts'
import type { HubRefusal } from '../../../ports/hubFault.ts'
import { createMemoryHub } from './memoryHub.ts'
import type { MemoryJoining, MemoryServer } from './memoryServer.ts'
import { createMemoryStream, type MemoryCopy } from './memoryStream.ts'

/** A clinic without a server: its hub in memory, for tests and to try the app, with every fault that a real one has. */
export interface MemoryClinic {
  /** The hub as one device sees it; not started. */
  join(device: string, joining?: MemoryJoining): Hub
  /** Takes the hub away or brings it back. */
  setUp(up: boolean): void
  /** It takes what it is asked and never answers; what it was asked is not done. */
  setHanging(hanging: boolean): void
  /** What it does from now on is done, and every nth answer is lost: 1 all, 0 none. */
  loseAnswers(everyNth: number): void
  /** Others hear of an entry so much later. */
  setLag(lag_ms: number): void
  /** Cuts a device off, or lets it in again. */
  refuse(device: string, why: HubRefusal | undefined): void
  readonly copy: () => MemoryCopy
  /** The hub stops and comes back with an old copy of its disk. */
  restore(copy: MemoryCopy): void
}

export function createMemoryClinic(clock: Clock): MemoryClinic {
  const stream = createMemoryStream(() => clock.read().wall_ms)
  const change = createEmitter<void>()
  const refused = new Map<string, HubRefusal>()
  const is = { up: true, hanging: false, lag_ms: 0, losing: 0, answers: 0 }
  const set = (part: Partial<typeof is>): void => {
    Object.assign(is, part)
    change.emit()
  }
  const server: MemoryServer = {
    ...stream,
    clock,
    answers: new Set(),
    onChange: change.observe,
    changed: change.emit,
    isUp: () => is.up,
    isHanging: () => is.hanging,
    lag_ms: () => is.lag_ms,
    refusal: (device) => refused.get(device),
    loses: () => is.losing > 0 && (is.answers += 1) % is.losing === 0,
  }
  return {
    join: (device, joining = {}) => createMemoryHub(server, device, joining),
    setUp: (up) => set({ up }),
    setHanging: (hanging) => set({ hanging }),
    loseAnswers: (losing) => set({ losing, answers: 0 }),
    setLag: (lag_ms) => set({ lag_ms }),
    refuse(device, why) {
      if (why) refused.set(device, why)
      else refused.delete(device)
      change.emit()
    },
    copy: stream.copy,
    restore(copy) {
      set({ up: false })
      stream.restore(copy)
      set({ up: true })
    },
  }
}
