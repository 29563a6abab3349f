import { defined } from '../basics/defined.ts'
import type { Elapsed } from '../time/course.ts'
import { bareStamp, elapsed, type Stamp } from '../time/stamp.ts'
import {
  isBenchEvent,
  type BenchEvent,
  type RejectReason,
  type Sending,
  type SpinSetting,
  type StorePlace,
} from './benchEvents.ts'
import type { LogEntry } from './entry.ts'

export interface SpinPassed extends SpinSetting {
  readonly act?: string
  readonly started: Stamp
  readonly ended?: Stamp
}

/** What happened to one specimen after it came off the holder; of what is said again the last word stands. */
export interface SpecimenWay {
  readonly spins: readonly SpinPassed[]
  readonly separated?: Stamp
  readonly aliquots?: { readonly portions: number; readonly at: Stamp }
  readonly stored?: { readonly where: StorePlace; readonly at: Stamp }
  readonly bagged?: { readonly bag: string; readonly at: Stamp }
  readonly sent?: Sending & { readonly at: Stamp }
  readonly dropped?: { readonly to: string; readonly by?: string; readonly at: Stamp }
  readonly received?: { readonly by?: string; readonly at: Stamp }
  readonly rejected?: { readonly reason: RejectReason; readonly note?: string; readonly at: Stamp }
}

export const NOT_GONE_FAR: SpecimenWay = { spins: [] }

/** A time that somebody told stands on no clock of a page. */
const TOLD_BOOT = ''

/** When it happened: as told, else when it was written. */
export function happenedAt({ at, event }: Pick<LogEntry, 'at' | 'event'>): Stamp {
  const told_ms = isBenchEvent(event) ? event.at_ms : undefined
  if (told_ms === undefined) return at
  return { ...bareStamp(at), at_ms: told_ms, wall_ms: told_ms, boot: TOLD_BOOT }
}

/** Time from one moment of a specimen to another; of a told time only the charted times are known. */
export function wayElapsed(from: Stamp, to: Stamp): Elapsed {
  if (from.boot !== TOLD_BOOT && to.boot !== TOLD_BOOT) return elapsed(from, to)
  const ms = Math.max(0, to.at_ms - from.at_ms)
  return { least_ms: ms, most_ms: ms }
}

/**
 * The way of every specimen of a draw, by tube.
 * @param kept the entries that count
 * @param all the specimens of the draw, for what was said of all of them at once
 */
export function specimenWays(
  kept: readonly LogEntry[],
  all: readonly string[],
): ReadonlyMap<string, SpecimenWay> {
  const ways = new Map<string, SpecimenWay>()
  for (const entry of kept) {
    const { event } = entry
    // Another tube stands in the place of the lost one, under the same id.
    if (event.type === 'tubeSwapped') ways.delete(event.tubeId)
    if (!isBenchEvent(event)) continue
    const at = happenedAt(entry)
    for (const id of event.tubeIds ?? all) {
      ways.set(id, further(ways.get(id) ?? NOT_GONE_FAR, event, at))
    }
  }
  return ways
}

function further(way: SpecimenWay, event: BenchEvent, at: Stamp): SpecimenWay {
  switch (event.type) {
    case 'spinStarted': {
      const { act, g, spin_min, temperature, rpm, rotor } = event
      const spin = defined({ act, started: at, g, spin_min, temperature, rpm, rotor })
      return { ...way, spins: [...way.spins, spin] }
    }
    case 'spinEnded': {
      const open = way.spins.findLastIndex(({ ended }) => !ended)
      const spins = way.spins.map((spin, nth) => (nth === open ? { ...spin, ended: at } : spin))
      return { ...way, spins }
    }
    case 'separated':
      return { ...way, separated: at }
    case 'aliquoted':
      return { ...way, aliquots: { portions: event.portions, at } }
    case 'stored':
      return { ...way, stored: { where: event.where, at } }
    case 'bagged':
      return { ...way, bagged: { bag: event.bag, at } }
    case 'courierTook': {
      const { courier, pack, laboratory } = event
      return { ...way, sent: defined({ at, courier, pack, laboratory }) }
    }
    case 'droppedOff':
      return { ...way, dropped: defined({ to: event.to, by: event.by, at }) }
    case 'labReceived':
      return { ...way, received: defined({ by: event.by, at }) }
    case 'labRejected':
      return { ...way, rejected: defined({ reason: event.reason, note: event.note, at }) }
  }
}

/** When it left, or was known to be where it should go. */
export const leftAt = ({ sent, dropped, received, rejected }: SpecimenWay): Stamp | undefined =>
  sent?.at ?? dropped?.at ?? received?.at ?? rejected?.at

/** It is in the centrifuge. */
export const isSpinning = ({ spins }: SpecimenWay): boolean => {
  const last = spins.at(-1)
  return last !== undefined && last.ended === undefined
}
