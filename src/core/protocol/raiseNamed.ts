import type { Stamp } from '../time/stamp.ts'
import type { Command } from './commands.ts'
import type { RuledCommand } from './commandTable.ts'
import { record, impossible, type Decision } from './decision.ts'
import type { ExceptionKind } from './exceptions.ts'
import { follow } from './follow.ts'
import { SET_ASIDE } from './events.ts'
import { tubeLost, type LostBy } from './tubeRules.ts'
import type { DrawState } from './state.ts'
import { ofOtherWay } from './ofOtherWay.ts'

/** The command of a kind. Kinds without one come from facts, a clock or a form, and are not raised by hand. */
const RAISED_BY: Readonly<Record<ExceptionKind, RuledCommand | undefined>> = {
  identityMismatch: 'refuseIdentity',
  notPrepared: undefined,
  noFlash: 'noFlash',
  veinRolled: 'veinRolled',
  flowLost: 'flowLost',
  slowFlow: 'slowFlow',
  slowDrops: 'slowDrops',
  slowPull: 'slowFlow',
  noVacuum: 'noVacuum',
  shortFill: 'tubeShort',
  wrongTube: 'wrongTube',
  expiredTube: 'expiredTube',
  droppedTube: 'droppedTube',
  unlabelledTube: 'unlabelledTube',
  bandOver: undefined,
  swelling: 'swelling',
  brightBlood: 'brightBlood',
  sharpPain: 'sharpPain',
  faint: 'faint',
  nausea: 'nausea',
  bleedingContinues: 'bleedingContinues',
  consentWithdrawn: 'withdrawConsent',
  needlestick: 'needlestick',
  interrupted: 'interrupted',
  handover: undefined,
  stopEverything: 'stopEverything',
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
  const raisedBy = RAISED_BY[kind]
  if (!raisedBy) return impossible('nothingOpen')
  const other = ofOtherWay(s, raisedBy)
  if (other) return impossible(other)
  const decision = follow(raisedBy, s, now, confirmed)
  if (decision.kind !== 'record' || note === undefined) return decision
  const events = decision.events.map((event) =>
    event.type === 'exceptionRaised' ? { ...event, note } : event,
  )
  return record(...events)
}

/** A tube without a label is not lost by that: what becomes of it is decided first. */
function isSetAside(kind: ExceptionKind): kind is LostBy {
  return kind !== 'unlabelledTube' && (SET_ASIDE as readonly string[]).includes(kind)
}

/** A tube the person names: on the holder or already drawn, or the one to be put on. */
function lose(s: DrawState, why: LostBy, tubeId: string): Decision {
  if (s.closed && why !== 'droppedTube') return impossible('closed')
  const tube = s.tubes.find(({ id }) => id === tubeId)
  if (!tube) return impossible('noTubeLeft')
  if (!tube.on && why === 'droppedTube') return impossible('noSpecimens')
  return record({ type: 'exceptionRaised', kind: why, tubeId }, tubeLost(s, why, tubeId))
}
