import type { Stamp } from '../time/stamp.ts'
import type { Command, PlainCommand } from './commands.ts'
import { record, impossible, type Decision } from './decision.ts'
import type { ExceptionKind } from './exceptions.ts'
import { follow } from './follow.ts'
import { RULES, SET_ASIDE, tubeLost, type SetAside } from './rules.ts'
import type { DrawState } from './state.ts'

/** Kinds whose command has another name. Those without a command come from facts and are not raised by hand. */
const COMMAND_OF: Readonly<Partial<Record<ExceptionKind, PlainCommand>>> = {
  identityMismatch: 'refuseIdentity',
  consentWithdrawn: 'withdrawConsent',
  shortFill: 'tubeShort',
}

/** An exception chosen from a list, with a note or a tube: the same rule as its command, and the note with it. */
export function raiseNamed(
  s: DrawState,
  command: Extract<Command, { type: 'raise' }>,
  now: Stamp,
  confirmed: boolean,
): Decision {
  const { kind, note, tubeId } = command
  if (tubeId !== undefined && isSetAside(kind)) return lose(s, kind, tubeId)
  const rule = RULES[COMMAND_OF[kind] ?? (kind as PlainCommand)]
  if (!rule) return impossible('nothingOpen')
  const decision = follow(rule, s, now, confirmed)
  if (decision.kind !== 'record' || note === undefined) return decision
  const events = decision.events.map((event) =>
    event.type === 'exceptionRaised' ? { ...event, note } : event,
  )
  return record(...events)
}

function isSetAside(kind: ExceptionKind): kind is SetAside {
  return (SET_ASIDE as readonly string[]).includes(kind)
}

/** A tube the person names: on the holder or already drawn, or the one to be put on. */
function lose(s: DrawState, why: SetAside, tubeId: string): Decision {
  if (s.closed && why !== 'droppedTube') return impossible('closed')
  const tube = s.tubes.find(({ id }) => id === tubeId)
  if (!tube) return impossible('noTubeLeft')
  if (!tube.on && why === 'droppedTube') return impossible('noSpecimens')
  return record(...tubeLost(why, tubeId))
}
