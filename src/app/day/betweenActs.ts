import type { VoicedAct } from '../../core/bench/voicedGroup.ts'
import type { PackSaid } from '../view/courierView.ts'
import type { SaidOfBench } from '../view/benchViewTypes.ts'
import type { BetweenActs, SaidBack } from './betweenVoice.ts'

/** Why somebody is next, as far as a recorded prompt tells. */
export type NextKind = 'stat' | 'timed' | 'fasting' | 'booked' | 'plain'

/** Who is next, and how it is read aloud where names may be. */
export interface NextRead {
  readonly kind: NextKind
  readonly read: string
}

export interface BetweenActsDeps {
  /** Calls the first of the list; `undefined` where nobody waits. Rejects where it could not be written. */
  readonly callNext: () => Promise<NextRead | undefined>
  readonly list: () => { readonly waiting: number; readonly next?: NextRead }
  /** Does it for the one group of the board that it can mean. */
  readonly benchAct: (act: VoicedAct) => Promise<SaidOfBench>
  readonly takeBackLast: () => Promise<boolean>
  /** So many tubes are due at the bench now. */
  readonly benchDue: () => number
  /** Counts the pack whose turn it is; how many specimens it has, or `undefined` where none waits. */
  readonly pack: (said: PackSaid) => number | undefined
  readonly mayReadNames: () => boolean
}

/** Beyond this nobody counts by ear. */
const MOST_COUNTED = 12
/** The largest number that is recorded of a pack. */
const MOST_IN_PACK = 30

/** What each phrase between patients does and is answered with. Everything said stands on the screen as well. */
export function createBetweenActs(deps: BetweenActsDeps): BetweenActs {
  const told = (prompts: readonly string[], next?: NextRead): SaidBack =>
    next && deps.mayReadNames() ? { prompts, read: next.read } : { prompts }

  const act = (kind: VoicedAct) => async (): Promise<SaidBack> => {
    const outcome = await deps.benchAct(kind)
    if (outcome === 'none') return told(['day.noTube'])
    if (outcome === 'several') return told(['day.which'])
    return told([outcome.done > 0 ? 'day.recorded' : 'day.notDone'])
  }

  /** The number is always said: a person with another in the hand hears it. */
  const pack =
    (said: PackSaid, ...more: readonly string[]) =>
    (): Promise<SaidBack> => {
      const n = deps.pack(said)
      if (n === undefined) return Promise.resolve(told(['pack.none']))
      return Promise.resolve(told([`pack.number.${n > MOST_IN_PACK ? 'more' : n}`, ...more]))
    }

  return {
    nextPatient: async () => {
      const next = await deps.callNext()
      return next ? told([`day.next.${next.kind}`], next) : told(['day.nobody'])
    },
    readList: () => {
      const { waiting, next } = deps.list()
      if (!next) return Promise.resolve(told(['day.nobody']))
      const count = waiting > MOST_COUNTED ? 'more' : String(waiting)
      return Promise.resolve(told([`day.waiting.${count}`, `day.next.${next.kind}`], next))
    },
    whatIsDue: () =>
      Promise.resolve(told([deps.benchDue() > 0 ? 'day.seeBoard' : 'day.nothingDue'])),
    spinStarted: act('spinStarted'),
    spinEnded: act('spinEnded'),
    separated: act('separated'),
    stored: act('stored'),
    bagged: act('bagged'),
    packNumber: pack('number'),
    packComplete: pack('complete', 'pack.counted'),
    packShort: pack('short', 'pack.scan'),
    takeBack: async () => told([(await deps.takeBackLast()) ? 'day.takenBack' : 'day.nothingBack']),
  }
}
