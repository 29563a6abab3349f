import { defined } from '../basics/defined.ts'
import { isBenchEvent } from './benchEvents.ts'
import { injuriesOf } from './armDecisions.ts'
import type { LogEntry } from './entry.ts'
import { sittingKey } from '../order/sitting.ts'
import { onCourse } from '../time/stamp.ts'
import { bloodIn, fill_mL } from './bloodTaken.ts'
import { cueKey } from './cueId.ts'
import type { DrawEvent } from './events.ts'
import {
  armClosing,
  armSeen,
  bandNow,
  inPuncture,
  pulledAt,
  siteChosen,
  withoutDry,
} from './evolvePuncture.ts'
import { benchActed, offBench } from './evolveBench.ts'
import { uncheckedCard } from './evolveCard.ts'
import { exceptionEnded, handedOver, named, prickedNow } from './evolveCollector.ts'
import { isCapillary } from './facts.ts'
import { keep } from './keptEntries.ts'
import { endsPuncture } from './exceptionTable.ts'
import { openedBy } from './openedBy.ts'
import { renumbered, unreadLabel, withLabelDue } from './labelState.ts'
import { freshPuncture, type DrawState, type TubeProgress } from './state.ts'

/** Folds one log entry into the state. Total: any entry gives a state. */
export function evolve(state: DrawState, entry: LogEntry): DrawState {
  const { kept, retracted } = keep(state.kept, entry)
  const { redrawnGiven, acts } = state
  const before = retracted ? { ...replay(kept), redrawnGiven, acts } : state
  const timed = { ...entry, at: onCourse(before.last.at, entry.at) }
  return { ...apply(before, timed), last: timed, kept }
}

/**
 * The state after a whole log.
 * @throws RangeError when the log does not begin with the opening of a draw; `checkLog` refuses such a log first.
 */
export function replay(entries: readonly LogEntry[]): DrawState {
  const [first, ...rest] = entries
  if (first?.event.type !== 'drawOpened') throw new RangeError('The log does not open a draw.')
  return rest.reduce(evolve, openedBy(first.event, first))
}

function apply(state: DrawState, entry: LogEntry): DrawState {
  const { event, at } = entry
  if (isBenchEvent(event)) return benchActed(state, event, at)
  switch (event.type) {
    case 'drawOpened':
      return openedBy(event, entry)
    case 'identifierChecked':
      return identified(state, event)
    case 'consentGiven':
    case 'consentRefused':
      return { ...state, consent: event.type === 'consentGiven' ? 'given' : 'refused' }
    case 'preparationChecked':
    case 'notPrepared':
      return { ...state, preparation: event.type === 'notPrepared' ? event.type : 'checked' }
    case 'decisionNamed':
      return decided(state, event)
    case 'answerTaken':
      return { ...state, answers: { ...state.answers, ...event.answer } }
    case 'suppliesChecked':
      return { ...state, supplies: true }
    case 'cardChecked':
      return { ...state, cardChecked: at }
    case 'handsReady':
      return { ...state, hands: true }
    case 'positionTaken':
      return { ...state, position: event.position }
    case 'armSeen':
      return armSeen(state, event.arm, event.finding)
    case 'siteChosen':
      return siteChosen(state, event)
    case 'bandOn':
      return {
        ...inPuncture(state, { bandSeen: true }),
        bands: [...state.bands, bandNow(state, at)],
      }
    case 'bandOff':
      return {
        ...state,
        bands: state.bands.map((band) => (band.off ? band : { ...band, off: at })),
      }
    case 'skinCleaned':
      return inPuncture(withoutDry(state), { cleaned: at, ...defined({ cleanedWith: event.with }) })
    case 'skinDry':
      return inPuncture(state, { dry: at })
    case 'punctureBegun': {
      const next = freshPuncture(event.number, state.collector.id)
      return { ...state, past: [...state.past, state.puncture], puncture: next }
    }
    case 'needleIn':
      return inPuncture(state, { needleIn: at, by: state.collector.id })
    case 'lanced':
      return inPuncture(state, { needleIn: at, by: state.collector.id, isLancet: true })
    case 'wentToVein': {
      const { collecting: _skin, ...rest } = state
      return rest
    }
    case 'warmOn':
      return inPuncture(state, { warming: at })
    case 'siteWarm':
      return inPuncture(state, { warm: at })
    case 'dropWiped':
      return inPuncture(state, { wiped: at })
    case 'needleSetChosen':
      return inPuncture(state, { needleSet: event.set })
    case 'flashSeen':
      return inPuncture(state, { flash: at })
    case 'syringeFilled':
      return inPuncture(state, { pulled: pulledAt(event, at) })
    case 'transferOn':
      return inPuncture(state, { transfer: at })
    case 'tubeOn':
      return {
        ...onTube(beforeNextTube(state, event.tubeId), event.tubeId, (tube) => ({
          id: tube.id,
          swaps: tube.swaps,
          on: at,
          puncture: state.puncture.number,
        })),
        tubeOn: event.tubeId,
      }
    case 'tubeOff':
      return onTube(holderEmptied(state, event.tubeId), event.tubeId, (tube) => ({
        ...tube,
        off: at,
        fill: event.fill,
        ...(event.estimate_mL === undefined ? {} : { estimate_mL: event.estimate_mL }),
      }))
    case 'tubeMixed':
      return onTube(state, event.tubeId, (tube) => ({ ...tube, mixed: at }))
    case 'tubeHandled':
      return onTube(state, event.tubeId, (tube) => ({
        ...tube,
        handled: { ...tube.handled, [event.how]: at },
      }))
    case 'circleFilled':
      return onTube(state, event.tubeId, (tube) => ({
        ...tube,
        circles: [...(tube.circles ?? []), event.finding],
      }))
    case 'cardDried':
      return onTube(state, event.tubeId, (tube) => ({ ...tube, dried: at }))
    case 'bloodApproved':
      return { ...state, bloodApproved: { by: event.by, why: event.why } }
    case 'tubeSwapped':
      return onTube(
        renumbered(
          holderEmptied(
            bloodLost(uncheckedCard(offBench(state, event), event), event),
            event.tubeId,
          ),
          event,
        ),
        event.tubeId,
        (tube) => ({ id: tube.id, swaps: tube.swaps + 1 }),
      )
    case 'unlabelledSettled': {
      // Whatever was said of the labels before is not so: they are gone through once more.
      const { labelsDone: _done, ...rest } = withLabelDue(state, event.tubeId)
      return event.how === 'sentAsIs'
        ? { ...rest, unlabelled: [...rest.unlabelled, event.tubeId] }
        : rest
    }
    case 'lastTubeOff':
      return inPuncture(state, { lastTubeOff: at })
    case 'needleOut':
      return inPuncture(state, { needleOut: at })
    case 'shieldClicked':
      return inPuncture(state, { shield: at })
    case 'sharpsDone':
      return inPuncture(state, { sharps: at })
    case 'pressureOn': {
      // Pressure again means that what was thought over is not.
      const { bleedingStopped: _stopped, bandage: _bandage, ...puncture } = state.puncture
      const out = isCapillary(state) ? { needleOut: puncture.needleOut ?? at } : {}
      return { ...state, puncture: { ...puncture, ...out, pressureOn: at } }
    }
    case 'bleedingStopped':
      return inPuncture(state, { bleedingStopped: at })
    case 'bandageOn':
      return inPuncture(state, { bandage: at })
    case 'labelReadBack':
      return { ...state, readBack: { ...state.readBack, [event.tubeId]: event.matches } }
    case 'lotRead':
      return state
    case 'accessionTaken': {
      const accessions = { ...state.accessions, [event.tubeId]: event.accession }
      return { ...unreadLabel(state, event.tubeId), accessions }
    }
    case 'noFurtherPuncture':
      return { ...state, noMore: true }
    case 'labelsDone':
      return { ...state, labelsDone: at }
    case 'patientLanguageChosen':
      return { ...state, patientLanguage: event.language }
    case 'aftercareTold':
      return { ...state, aftercare: at }
    case 'handsCleaned':
      return { ...state, handsAfter: at }
    case 'specimensRacked':
      return { ...state, racked: at }
    case 'momentNoted': {
      const moment = { moment: event.moment, at_ms: event.at_ms ?? at.at_ms }
      return { ...state, moments: [...state.moments, moment] }
    }
    case 'sittingsLeftOut':
      return { ...state, leftOut: [...state.leftOut, ...event.sittings.map(sittingKey)] }
    case 'exceptionRaised': {
      const raised = {
        kind: event.kind,
        at,
        ...(event.tubeId === undefined ? {} : { tubeId: event.tubeId }),
        ...(entry.source === 'clock' ? { noticed: true as const } : {}),
      }
      const ending = state.puncture.ending || endsPuncture(event.kind)
      return {
        ...inPuncture(state, { ending, ...armClosing(state, event.kind) }),
        exceptions: [...state.exceptions.filter((open) => open.kind !== event.kind), raised],
        seen: state.seen.includes(event.kind) ? state.seen : [...state.seen, event.kind],
        ...(event.kind === 'consentWithdrawn' ? { consent: 'withdrawn' as const } : {}),
        ...(event.kind === 'needlestick' ? { pricked: prickedNow(state, at) } : {}),
      }
    }
    case 'exceptionEnded':
      return exceptionEnded(state, event)
    case 'colleagueTook':
      return { ...state, colleagueTook: at }
    case 'collectorChanged':
      return handedOver(named(state), event.to)
    case 'flagRaised':
      return { ...state, flags: [...state.flags, { flag: event.flag, at }] }
    case 'cueGiven':
      return { ...state, cues: [...state.cues, cueKey(event)] }
    case 'planRevised':
      return { ...state, plan: event.plan, tubes: revisedTubes(state, event.plan.tubes) }
    case 'drawClosed':
      return { ...state, closed: { outcome: event.outcome, at } }
    case 'squeezeNoted':
    case 'fistNoted':
    case 'tubeFell':
    case 'noteAdded':
    case 'exposureNoted':
    case 'clockStepped':
    case 'awayNoticed':
    case 'addendumMade':
    case 'entryUndone':
    case 'seriesWentOn':
      return state
  }
}

/** Another wristband that differs needs a decision of its own. */
function identified(
  state: DrawState,
  { identifier, matches }: Extract<DrawEvent, { type: 'identifierChecked' }>,
): DrawState {
  const differs = identifier === 'recordNumber' && !matches
  const decisions = differs
    ? state.decisions.filter(({ about }) => about !== 'wristband')
    : state.decisions
  return { ...state, identifiers: { ...state.identifiers, [identifier]: matches }, decisions }
}

function decided(
  state: DrawState,
  { about = 'preparation', decision, arm }: Extract<DrawEvent, { type: 'decisionNamed' }>,
): DrawState {
  if (about === 'preparation') return { ...state, preparation: decision }
  const injuries = arm && injuriesOf(state, arm)
  return { ...state, decisions: [...state.decisions, defined({ about, decision, arm, injuries })] }
}

/** A further tube: what was said of the last one and of the labels holds no more. */
function beforeNextTube(state: DrawState, tubeId: string): DrawState {
  const { labelsDone: _labelsDone, ...rest } = unreadLabel(state, tubeId)
  const { lastTubeOff: _lastTubeOff, ...puncture } = rest.puncture
  return { ...rest, puncture }
}

/** Blood in a tube that is set aside was taken from the patient all the same. */
function bloodLost(
  state: DrawState,
  { tubeId, why }: Extract<DrawEvent, { type: 'tubeSwapped' }>,
): DrawState {
  const tube = state.tubes.find(({ id }) => id === tubeId)
  if (!tube?.on) return state
  const { puncture } = tube
  const lost = defined({ ...bloodIn(tube, fill_mL(state, tubeId), why), puncture })
  return { ...state, lost: [...state.lost, lost] }
}

function holderEmptied(state: DrawState, tubeId: string): DrawState {
  if (state.tubeOn !== tubeId) return state
  const { tubeOn: _tubeOn, ...rest } = state
  return rest
}

function onTube(
  state: DrawState,
  id: string,
  change: (tube: TubeProgress) => TubeProgress,
): DrawState {
  return { ...state, tubes: state.tubes.map((tube) => (tube.id === id ? change(tube) : tube)) }
}

/** A new plan keeps what is known of tubes it still names and of every tube already drawn. */
function revisedTubes(
  state: DrawState,
  planned: readonly { readonly id: string }[],
): TubeProgress[] {
  const drawn = state.tubes.filter((tube) => tube.off ?? tube.on)
  const isDrawn = new Set(drawn.map((tube) => tube.id))
  const waiting = planned.filter(({ id }) => !isDrawn.has(id)).map(({ id }) => ({ id, swaps: 0 }))
  return [...drawn, ...waiting]
}
