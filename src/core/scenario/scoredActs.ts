import type { DrawLog, LogEntry, Source } from '../protocol/entry.ts'
import type { DrawEvent, Flag } from '../protocol/events.ts'
import { keptEntries } from '../protocol/keptEntries.ts'

/** What somebody did in a draw, with what the protocol had to say of it. */
export interface Act {
  readonly seq: number
  readonly event: DrawEvent
  /** The same for the same act, whoever does it when, and on whichever arm. */
  readonly key: string
  readonly flags: readonly Flag[]
}

/** Not of a person: the clock's and the app's own, and what follows from an act. */
const OF_NOBODY: ReadonlySet<Source> = new Set(['clock', 'app'])

/**
 * The acts of a draw in their order. What was taken back is none, nor is what clock and app wrote; a flag belongs to
 * the act before it.
 */
export function actsOf(log: DrawLog): readonly Act[] {
  const acts: Act[] = []
  for (const { seq, event, source } of keptEntries(log.entries).kept) {
    if (OF_NOBODY.has(source)) continue
    if (event.type === 'flagRaised') {
      const last = acts.pop()
      if (last) acts.push({ ...last, flags: [...last.flags, event.flag] })
    } else if (isAct(event)) {
      acts.push({ seq, event, key: actKey(event), flags: [] })
    }
  }
  return acts
}

const isAct = ({ type }: DrawEvent): boolean =>
  type !== 'noteAdded' && type !== 'exposureNoted' && type !== 'addendumMade'

/** What makes an act another one. Left out is what is free to choose, such as the arm, and how it came in. */
function actKey(event: LogEntry['event']): string {
  switch (event.type) {
    case 'identifierChecked':
      return key(event.type, event.identifier, event.matches)
    case 'tubeOn':
    case 'tubeMixed':
    case 'cardDried':
    case 'tubeFell':
      return key(event.type, event.tubeId)
    case 'tubeOff':
      return key(event.type, event.tubeId, event.fill)
    case 'tubeHandled':
    case 'unlabelledSettled':
      return key(event.type, event.tubeId, event.how)
    case 'tubeSwapped':
      return key(event.type, event.tubeId, event.why)
    case 'circleFilled':
      return key(event.type, event.tubeId, event.finding)
    case 'labelReadBack':
      return key(event.type, event.tubeId, event.matches)
    case 'exceptionRaised':
    case 'exceptionEnded':
      return key(event.type, event.kind)
    case 'decisionNamed':
      return key(event.type, event.decision, event.about ?? '')
    case 'momentNoted':
      return key(event.type, event.moment)
    case 'drawClosed':
      return key(event.type, event.outcome)
    default:
      return event.type
  }
}

const key = (...parts: readonly (string | boolean)[]): string => parts.join(' ')
