import { afterEach, beforeEach } from 'vitest'
import type { HubEntry } from '../../src/core/hub/hubEntry.ts'
import type { Appended, Hub } from '../../src/ports/hub.ts'

/** A clinic of its own for one test. */
export interface ContractClinic {
  /** The hub as one device sees it, not started; a call gives up after about `PATIENCE_ms`. */
  join(device: string): Promise<Hub>
  down(): Promise<void>
  up(): Promise<void>
  /** It keeps connections open and answers nothing; then it answers again. */
  freeze(): Promise<void>
  thaw(): Promise<void>
  /** Keeps what the disk holds now; the returned function stops the hub and starts it again with that. */
  copy(): Promise<() => Promise<void>>
  end(): Promise<void>
}

/** So long the hubs of a contract wait for an answer. */
export const PATIENCE_ms = 1000
/** For what happens on a busy machine. */
export const SOON = { timeout: 15_000, interval: 20 }

export const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes)
export const bytesOf = (words: string): Uint8Array => new TextEncoder().encode(words)
export const words = (entries: readonly HubEntry[]): string[] =>
  entries.map(({ bytes }) => text(bytes))

export const placeOf = (outcome: Appended): number => {
  if (outcome.kind !== 'stored') throw new Error(`Not stored: ${JSON.stringify(outcome)}`)
  return outcome.sequence
}

/** Starts a hub and waits until it is connected; also outside a test. */
export async function connected(hub: Hub): Promise<Hub> {
  let stop = (): void => undefined
  const there = new Promise<void>((resolve, reject) => {
    const late = setTimeout(() => reject(new Error(JSON.stringify(hub.state()))), SOON.timeout)
    const look = (): void => {
      if (hub.state().kind !== 'connected') return
      clearTimeout(late)
      resolve()
    }
    stop = hub.onState(look)
    hub.start()
    look()
  })
  await there.finally(() => stop())
  return hub
}

/** Appends words one after the other and gives the place of the last. */
export async function say(
  hub: Hub,
  log: string,
  all: readonly string[],
  behind = 0,
): Promise<number> {
  let last = behind
  for (const word of all) last = placeOf(await hub.append(log, 'entry', bytesOf(word), last))
  return last
}

/** The clinic of the test that runs, and devices that have joined it. */
export interface ContractRig {
  readonly clinic: () => ContractClinic
  /** A device that is connected. */
  join(device: string): Promise<Hub>
  /** A device that is not started. */
  joinOff(device: string): Promise<Hub>
}

/** Makes a clinic before each test and ends it after, with every device that joined. */
export function contractRig(fresh: () => Promise<ContractClinic>): ContractRig {
  let clinic: ContractClinic
  const hubs: Hub[] = []
  beforeEach(async () => {
    clinic = await fresh()
  }, 60_000)
  afterEach(async () => {
    await Promise.all(hubs.splice(0).map((hub) => hub.stop()))
    await clinic.end()
  }, 60_000)
  const joinOff = async (device: string): Promise<Hub> => {
    const hub = await clinic.join(device)
    hubs.push(hub)
    return hub
  }
  return { clinic: () => clinic, joinOff, join: async (device) => connected(await joinOff(device)) }
}
