import type { DrawLog } from '../protocol/entry.ts'
import type { DrawEvent, DrawEventType, Flag } from '../protocol/events.ts'
import { actsOf, type Act } from './scoredActs.ts'

/** What the protocol says of the time of an act, by its event. */
const TIMED: Readonly<Partial<Record<DrawEventType, readonly Flag[]>>> = {
  bandOn: ['bandBeforeRest'],
  bandOff: ['bandOverLimit'],
  skinDry: ['skinNotDry'],
  tubeMixed: ['mixedLate'],
  bleedingStopped: ['pressureShort'],
  bandageOn: ['siteNotWatched'],
  labelsDone: ['labelsLate'],
  spinStarted: ['spunEarly'],
}

const OF_TIME: ReadonlySet<Flag> = new Set(Object.values(TIMED).flat())

/** One act that the script asks for, and what came of it. Each of its points is told by itself. */
export interface ScoredAct {
  /** As the script has it. */
  readonly event: DrawEvent
  readonly isDone: boolean
  /** What was wrong with its place among the others; empty for nothing. */
  readonly order: readonly Flag[]
  /** What was wrong with its time; `undefined` where the protocol asks for no time. */
  readonly time: readonly Flag[] | undefined
}

/** Points of a rehearsal: one for each act that is done, in its place, and, where it has a time, in time. */
export interface PracticeScore {
  readonly acts: readonly ScoredAct[]
  /** Remarks on acts that the script does not ask for; each takes a point. */
  readonly besides: readonly Flag[]
  /** False where the clock was set or the device slept: then no time counts against anybody. */
  readonly isTimeKnown: boolean
  readonly points: number
  readonly of: number
}

/**
 * Holds a rehearsed draw against its script as played through. What the script itself does wrong on purpose is no fault
 * of the trainee, and who does it right instead loses nothing by it but the acts that then are not there.
 * @param model the same draw as `playScript` plays it
 */
export function scorePractice(log: DrawLog, model: DrawLog): PracticeScore {
  const isTimeKnown = !log.entries.some(({ event }) => event.type === 'clockStepped')
  const { pairs, left } = matched(actsOf(model), actsOf(log))
  const acts = pairs.map(([asked, done]) => scored(asked, done, isTimeKnown))
  const besides = left
    .flatMap(({ flags }) => flags)
    .filter((flag) => isTimeKnown || !OF_TIME.has(flag))
  const all = acts.map(pointsOf)
  const points = sum(all.map(([got]) => got)) - besides.length
  return {
    acts,
    besides,
    isTimeKnown,
    points: Math.max(0, points),
    of: sum(all.map(([, most]) => most)),
  }
}

type Pair = readonly [asked: Act, done: Act | undefined]

/**
 * What was done for each act that is asked for. Of several of one kind, such as two needles, those that went as they
 * should are taken first.
 */
function matched(
  asked: readonly Act[],
  done: readonly Act[],
): { readonly pairs: readonly Pair[]; readonly left: readonly Act[] } {
  const open = [...done]
  const take = (fits: (act: Act) => boolean): Act | undefined => {
    const at = open.findIndex(fits)
    return at < 0 ? undefined : open.splice(at, 1)[0]
  }
  const clean = asked.map((act): Pair => [
    act,
    take(({ key, flags }) => key === act.key && flags.every((flag) => act.flags.includes(flag))),
  ])
  const pairs = clean.map(([act, found]): Pair => [
    act,
    found ?? take(({ key }) => key === act.key),
  ])
  return { pairs, left: open }
}

function scored(asked: Act, done: Act | undefined, isTimeKnown: boolean): ScoredAct {
  const { event } = asked
  const timed = TIMED[event.type]
  const faults = (done?.flags ?? []).filter(
    (flag) => !asked.flags.includes(flag) && (isTimeKnown || !OF_TIME.has(flag)),
  )
  return {
    event,
    isDone: done !== undefined,
    order: faults.filter((flag) => !timed?.includes(flag)),
    time: timed && faults.filter((flag) => timed.includes(flag)),
  }
}

/** Points got and points there were. What is not done has none of its points. */
function pointsOf({ isDone, order, time }: ScoredAct): readonly [number, number] {
  const most = time ? 3 : 2
  if (!isDone) return [0, most]
  return [most - (order.length > 0 ? 1 : 0) - (time && time.length > 0 ? 1 : 0), most]
}

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0)
