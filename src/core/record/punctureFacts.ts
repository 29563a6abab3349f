import { defined } from '../basics/defined.ts'
import type { LogEntry } from '../protocol/entry.ts'
import type { Collector } from '../order/order.ts'
import type { DrawEventType, DrawOpened } from '../protocol/events.ts'
import type { SkinPlace } from '../order/collecting.ts'
import { elapsed, type Stamp } from '../time/stamp.ts'
import type { BandFact, PunctureFact } from './drawFacts.ts'

/** Events that set one time of a puncture; the latest one stands. */
const TIMES: Partial<Record<DrawEventType, keyof PunctureFact>> = {
  skinCleaned: 'cleaned',
  skinDry: 'dry',
  flashSeen: 'flash',
  transferOn: 'transfer',
  warmOn: 'warming',
  siteWarm: 'warm',
  dropWiped: 'wiped',
  lastTubeOff: 'lastTubeOff',
  needleOut: 'needleOut',
  shieldClicked: 'shield',
  sharpsDone: 'sharps',
  bleedingStopped: 'bleedingStopped',
  bandageOn: 'bandage',
}

/**
 * One record for each needle, from choosing the place to the bandage. A second begins with `punctureBegun`, or with
 * another needle after one was out.
 */
export function punctureFacts(
  kept: readonly LogEntry[],
  {
    collector: first,
    needleSet,
    collecting,
  }: Pick<DrawOpened, 'collector' | 'needleSet' | 'collecting'>,
): PunctureFact[] {
  const done: PunctureFact[] = []
  let collector = first
  let skin = collecting
  let now: PunctureFact = { ...begun(1, collector, skin), ...(skin ? {} : { needleSet }) }
  for (const entry of kept) {
    const { event } = entry
    if (event.type === 'collectorChanged') {
      collector = event.to
      if (now.needleIn.length === 0) now = { ...now, collector }
    } else if (event.type === 'punctureBegun' || isNext(now, entry)) {
      done.push(now)
      const number = event.type === 'punctureBegun' ? event.number : now.number + 1
      now = withEntry(begun(number, collector, skin), entry)
    } else if (event.type === 'wentToVein') {
      skin = undefined
    } else {
      // A band that stayed on while a further needle went in comes off for the earlier one too.
      if (event.type === 'bandOff') done.forEach((each, at) => (done[at] = withEntry(each, entry)))
      now = withEntry(now, entry)
    }
  }
  return [...done, now]
}

const begun = (number: number, collector: Collector, skin?: SkinPlace): PunctureFact =>
  defined({ number, collector, skin, bands: [], needleIn: [] })

const isNext = (now: PunctureFact, { event }: LogEntry): boolean =>
  (event.type === 'needleIn' && now.needleOut !== undefined) ||
  (event.type === 'lanced' && now.pressureOn !== undefined)

function withEntry(now: PunctureFact, { event, at }: LogEntry): PunctureFact {
  switch (event.type) {
    case 'siteChosen':
      return {
        ...now,
        ...defined({ arm: event.arm, vein: event.vein }),
        ...(event.elsewhere && { elsewhere: true }),
      }
    case 'bandOn':
      return { ...now, bands: [...now.bands, { on: at }] }
    case 'bandOff':
      return { ...now, bands: now.bands.map((band) => bandOff(band, at)) }
    case 'pressureOn':
      return pressedAgain(now, at)
    case 'syringeFilled': {
      const isShort = event.fill === 'short'
      // Older logs hold what the tubes wanted, also where the syringe holds less.
      const full_mL = Math.min(event.planned_mL, now.needleSet?.syringe_mL ?? Infinity)
      const mL = event.estimate_mL ?? (isShort ? undefined : full_mL)
      return { ...now, pulled: defined({ at, isShort, mL }) }
    }
    case 'needleSetChosen':
      return { ...now, needleSet: event.set, setIsNamed: event.set.wall === undefined }
    case 'lanced':
    case 'needleIn':
      return { ...now, needleIn: [...now.needleIn, at] }
    case 'skinCleaned': {
      const { dry: _dry, cleanedWith: _with, ...wet } = now
      return { ...wet, cleaned: at, ...defined({ cleanedWith: event.with }) }
    }
    default: {
      const key = TIMES[event.type]
      return key ? { ...now, [key]: at } : now
    }
  }
}

function bandOff(band: BandFact, at: LogEntry['at']): BandFact {
  return band.off ? band : { on: band.on, off: at, length: elapsed(band.on, at) }
}

/** Pressure again means that what was thought over is not: the earlier pressing is kept with what was said of it. */
function pressedAgain(now: PunctureFact, at: Stamp): PunctureFact {
  const { pressureOn: from, bleedingStopped: stopped, bandage, ...rest } = now
  if (!from) return { ...now, pressureOn: at }
  const before = [...(now.pressedBefore ?? []), defined({ from, stopped, bandage })]
  return { ...rest, pressedBefore: before, pressureOn: at }
}
