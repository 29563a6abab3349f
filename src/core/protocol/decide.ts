import { ageByBirthDate } from './ageByBirthDate.ts'
import { calendarDate } from '../time/format.ts'
import { allergiesOf, withAllergy, type AntisepticAllergy, type NeedleSet } from '../order/order.ts'
import { injuriesOf } from './armDecisions.ts'
import type { Stamp } from '../time/stamp.ts'
import { defined } from '../basics/defined.ts'
import { cardIsWanted, circle } from './card.ts'
import { closing } from './closing.ts'
import type { Command, PlainCommand } from './commands.ts'
import { isSteering } from './commandTable.ts'
import { decideApp } from './decideApp.ts'
import { decideBench } from './decideBench.ts'
import { decideLabel } from './decideLabel.ts'
import { decideSeries } from './decideSeries.ts'
import { CONSENT_HOW } from './consentHow.ts'
import { record, impossible, type Decision } from './decision.ts'
import type { DrawEvent, IdentifiedBy, Identifier } from './events.ts'
import { EXCEPTION_TABLE, isArmCloser, isSevere, type Severity } from './exceptionTable.ts'
import * as draw from './facts.ts'
import { follow } from './follow.ts'
import { ofOtherWay, saidOfSkin } from './ofOtherWay.ts'
import { raiseNamed } from './raiseNamed.ts'
import { cleanedWith, consentBy } from './preparationRules.ts'
import { settleUnlabelled, unlabelledEnd, unlabelledIs } from './settleUnlabelled.ts'
import type { DrawState, OpenException } from './state.ts'
import { goToVein } from './goToVein.ts'
import { pulled } from './syringe.ts'
import { putOn, shortBy } from './tubeRules.ts'
import { undo } from './undo.ts'

/**
 * Turns a command into events. Pure: the state, the command and the time decide alone.
 * What did happen is always recorded, flagged where it should not have been; only what cannot be true
 * (a second needle while one is in) or would end the draw unsafely is turned down, with the reason.
 * `confirmed` says that the question a command raises has been answered with yes.
 */
export function decide(s: DrawState, command: Command, now: Stamp, confirmed = false): Decision {
  const other = ofOtherWay(s, command.type)
  if (other) return impossible(other)
  const decision = decideFact(s, command, now, confirmed)
  if (decision.kind === 'impossible') return impossible(saidOfSkin(s, decision.why))
  if (decision.kind !== 'record') return decision
  return record(...decision.events, ...ended(s, command, decision.events))
}

function decideFact(s: DrawState, command: Command, now: Stamp, confirmed: boolean): Decision {
  if (isSteering(command.type)) return record()
  switch (command.type) {
    case 'giveCue':
    case 'noticeAway':
    case 'noticeClockStep':
    case 'addNote':
    case 'choosePatientLanguage':
    case 'noteExposure':
    case 'approveBlood':
    case 'handOver':
    case 'revisePlan':
    case 'makeAddendum':
      return decideApp(s, command)
    case 'noteMoment':
    case 'leaveOut':
    case 'goOnWithSeries':
      return decideSeries(s, command, now)
    case 'benchAct':
    case 'takeBackAct':
      return decideBench(s, command, now)
    case 'goBack':
      return undo(s)
    case 'endDraw':
    case 'specimensRacked':
      return closing(s, command.type, confirmed)
    case 'endBecause':
      return closing(s, 'endDraw', true, command.reason)
    case 'exceptionHandled':
      return handled(s)
    case 'labelMatches':
    case 'labelWrong':
    case 'scanLabel':
    case 'takeAccession':
      return decideLabel(s, command, confirmed)
    case 'tubeOnNamed':
      return follow('tubeOn', s, now, confirmed, putOn(command.tubeId))
    case 'tubeShortBy':
      return follow('tubeShort', s, now, confirmed, shortBy(command.estimate_mL))
    case 'chooseArm':
    case 'chooseSide':
    case 'chooseVein':
      return chooseSite(s, command, confirmed)
    case 'chooseSet':
      return chooseSet(s, command.set)
    case 'chooseSyringe':
      return chooseSet(s, { ...draw.needleSetOf(s), syringe_mL: command.mL })
    case 'goToVein':
      return goToVein(s, command.why)
    case 'syringeHolds':
      return follow('syringeShort', s, now, confirmed, pulled('short', command.estimate_mL))
    case 'notPrepared':
      if (s.closed) return impossible('closed')
      if (s.preparation === 'notPrepared') return impossible('alreadyDone')
      return record(
        { type: 'notPrepared', what: command.what },
        { type: 'exceptionRaised', kind: 'notPrepared', note: command.what },
      )
    case 'identified':
      if (s.closed) return impossible('closed')
      if (draw.identityChecked(s)) return impossible('alreadyDone')
      return record(...identifiedBy(command.by))
    case 'antisepticAllergy':
      if (s.closed) return impossible('closed')
      return allergyTold(s, command.allergy)
    case 'armFinding': {
      const { arm, needleIn } = s.puncture
      if (s.closed) return impossible('closed')
      if (!arm) return impossible('notDecided')
      if (needleIn) return impossible(draw.needleIsIn(s) ? 'needleIsIn' : 'alreadyDone')
      if (draw.findingsAt(s, arm).includes(command.finding)) return impossible('alreadyDone')
      return record({ type: 'armSeen', arm, finding: command.finding })
    }
    case 'thinner':
      if (s.closed) return impossible('closed')
      if (draw.answersOf(s).anticoagulant === command.kind) return impossible('alreadyDone')
      return record({ type: 'answerTaken', answer: { anticoagulant: command.kind } })
    case 'ageTold':
    case 'feeding':
      return newbornTold(s, command)
    case 'circleGood':
      return follow('cardDone', s, now, confirmed, circle('good'))
    case 'circleBad':
      return follow('cardDone', s, now, confirmed, circle(command.finding))
    case 'consentFrom':
      return follow('confirmConsent', s, now, confirmed, consentBy(CONSENT_HOW[command.how]))
    case 'skinCleanWith':
      return follow('skinClean', s, now, confirmed, cleanedWith(command.antiseptic))
    case 'nameDecision':
      if (s.closed) return impossible('closed')
      if (command.about !== undefined && command.about !== 'preparation') {
        const { decision, by, about, arm, why } = command
        return record(defined({ type: 'decisionNamed' as const, decision, by, about, arm, why }))
      }
      if (s.preparation !== 'notPrepared') return impossible('nothingOpen')
      return record(
        { type: 'decisionNamed', decision: command.decision, by: command.by },
        { type: 'exceptionEnded', kind: 'notPrepared', how: command.decision },
      )
    case 'settleUnlabelled':
      return settleUnlabelled(s, command, confirmed)
    case 'unlabelledIs':
      return unlabelledIs(s, command.number)
    case 'unlabelledEnd':
      return unlabelledEnd(s, command.how, confirmed)
    case 'raise':
      return raiseNamed(s, command, now, confirmed)
    default:
      return follow(command.type, s, now, confirmed)
  }
}

/** A site on an arm; once a needle was in it only a site that nobody has named yet. A restricted arm is flagged. */
function chooseSite(
  s: DrawState,
  command: Extract<Command, { type: 'chooseArm' | 'chooseSide' | 'chooseVein' }>,
  confirmed: boolean,
): Decision {
  if (s.closed) return impossible('closed')
  const { arm, vein, needleIn } = s.puncture
  const fixed = command.type === 'chooseVein' ? vein : arm
  if (needleIn && fixed) return impossible(draw.needleIsIn(s) ? 'needleIsIn' : 'alreadyDone')
  if (command.type === 'chooseVein') {
    if (!arm) return impossible('notDecided')
    return record({ type: 'siteChosen', arm, vein: command.vein })
  }
  const banded = draw.currentBand(s)?.arm
  if (banded && banded !== command.arm) return impossible('bandOnOtherArm')
  // Another place for each lancet: continuing education page (labce.com site puncture), excerpt.
  const again = draw.wasLanced(s, command.arm)
  if (again && !confirmed) return { kind: 'ask', ask: 'samePlace' }
  const elsewhere = again ? ({ elsewhere: true } as const) : {}
  const chosen: DrawEvent = { type: 'siteChosen', arm: command.arm, ...elsewhere }
  const why = draw.armClosedBy(s, command.arm)
  if (!why || !draw.isForbidden(s, command.arm)) return record(chosen)
  if ((isArmCloser(why) || injuriesOf(s, command.arm) > 0) && !confirmed)
    return { kind: 'ask', ask: 'closedArm' }
  return record(chosen, { type: 'flagRaised', flag: 'restrictedArm', detail: why })
}

/** What is asked about a newborn goes with the card, and can be told until its blood is taken. */
function newbornTold(
  s: DrawState,
  command: Extract<Command, { type: 'ageTold' | 'feeding' }>,
): Decision {
  if (s.closed) return impossible('closed')
  if (!cardIsWanted(s)) return impossible('noCard')
  const { ageTold, feeding } = draw.answersOf(s)
  const known = ageByBirthDate(s.opened.patient.birthDate, calendarDate(s.openedAt))
  if (command.type === 'ageTold' && known !== undefined && known !== command.age)
    return impossible('notByBirthDate')
  const answer =
    command.type === 'ageTold' ? { ageTold: command.age } : { feeding: command.feeding }
  const isHeld = command.type === 'ageTold' ? ageTold === command.age : feeding === command.feeding
  return isHeld ? impossible('alreadyDone') : record({ type: 'answerTaken', answer })
}

function allergyTold(s: DrawState, told: AntisepticAllergy): Decision {
  const { antisepticAllergy: held } = draw.answersOf(s)
  if (allergiesOf(held).includes(told)) return impossible('alreadyDone')
  return record({ type: 'answerTaken', answer: { antisepticAllergy: withAllergy(held, told) } })
}

/** A wristband tells the record number as well. */
function identifiedBy(how: IdentifiedBy): readonly DrawEvent[] {
  const read: readonly Identifier[] =
    how === 'wristband' ? ['fullName', 'birthDate', 'recordNumber'] : ['fullName', 'birthDate']
  return read.map((identifier) => ({ type: 'identifierChecked', identifier, matches: true, how }))
}

/** Another needle is opened as long as the one of this puncture is not in. */
function chooseSet(s: DrawState, set: NeedleSet): Decision {
  if (s.closed) return impossible('closed')
  if (draw.needleIsIn(s)) return impossible('needleIsIn')
  if (s.puncture.needleOut) return impossible('alreadyDone')
  return record({ type: 'needleSetChosen', set })
}

/** Ends what is on the screen: the newest severe exception, else one that needs an answer, else the newest. */
function handled(s: DrawState): Decision {
  const isFormal = ({ kind }: OpenException): boolean =>
    kind === 'notPrepared' || (kind === 'unlabelledTube' && draw.unlabelledIsOpen(s))
  const answerable = s.exceptions.filter((open) => !isFormal(open))
  if (answerable.length === 0)
    return impossible(s.exceptions.length > 0 ? 'notDecided' : 'nothingOpen')
  const newest = (severity: Severity) =>
    answerable.findLast(({ kind }) => EXCEPTION_TABLE[kind].severity === severity)
  const open = newest('severe') ?? newest('act') ?? newest('note')
  if (!open) return impossible('nothingOpen')
  if (isSevere(open.kind) && !draw.bodyIsSafe(s)) return impossible('notSafeYet')
  return record({ type: 'exceptionEnded', kind: open.kind, how: 'exceptionHandled' })
}

/** Exceptions that the command, or what was recorded with it, brings to an end. */
function ended(s: DrawState, command: Command, events: readonly DrawEvent[]): DrawEvent[] {
  const facts: readonly string[] = [
    SAME_AS[command.type] ?? command.type,
    ...events.map(({ type }) => type),
    // Pressure on the place is the end of the drops, as the needle's coming out is of the flow.
    ...(draw.isCapillary(s) && command.type === 'pressureOn' ? ['needleOut'] : []),
  ]
  return s.exceptions.flatMap((open): DrawEvent[] => {
    const how = EXCEPTION_TABLE[open.kind].endedBy.find((end) => facts.includes(end))
    return how ? [{ type: 'exceptionEnded', kind: open.kind, how }] : []
  })
}

const SAME_AS: Readonly<Partial<Record<Command['type'], PlainCommand>>> = {
  tubeOnNamed: 'tubeOn',
  tubeShortBy: 'tubeShort',
  tubeEmpty: 'tubeShort',
  syringeHolds: 'syringeShort',
  handOver: 'colleagueHere',
  cardDone: 'tubeFull',
  identified: 'confirmPatient',
  skinCleanWith: 'skinClean',
}
