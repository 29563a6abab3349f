import {
  ANTICOAGULANTS,
  ANTISEPTIC_ALLERGIES,
  ARM_RESTRICTIONS,
  ARMS,
  DECISION_SUBJECTS,
  NEEDLE_KINDS,
  PRIORITIES,
  SEXES,
  WALLS,
} from '../order/order.ts'
import { MOMENTS } from '../order/sitting.ts'
import { SKIN_PLACES } from '../order/collecting.ts'
import { FILLS, TUBE_ROLES } from '../plan/plan.ts'
import {
  IDENTIFIED_BY,
  IDENTIFIERS,
  NAMED_DECISIONS,
  ARM_FINDINGS,
  CONSENT_BY,
  CONSENT_FORMS,
  END_REASONS,
  OUTCOMES,
  POSITIONS,
  SET_ASIDE,
  UNLABELLED_ENDS,
  VEINS,
} from '../protocol/events.ts'
import { ANTISEPTICS } from '../protocol/antiseptics.ts'
import { ARM_CLOSERS } from '../protocol/exceptionTable.ts'
import { HANDLING } from '../catalogue/handling.ts'
import { MISSING_WHY } from './missingTests.ts'
import { HANDLED } from '../protocol/handled.ts'
import { UNDOABLE_EVENTS, type UndoableEvent } from '../protocol/undoable.ts'

/** Flags and exceptions have words of their own. */
type WordedEvent = Exclude<UndoableEvent, 'flagRaised' | 'exceptionRaised'>
const WORDED_EVENTS = UNDOABLE_EVENTS.filter(
  (type): type is WordedEvent => type !== 'flagRaised' && type !== 'exceptionRaised',
)

/** Every word the note needs for a value that a log holds as a code, and every sentence it fills, by kind. */
export const NOTE_WORD_CODES = {
  yesNo: ['yes', 'no', 'notAsked'],
  sex: SEXES,
  identifier: IDENTIFIERS,
  matches: ['yes', 'no'],
  consent: ['given', 'refused', 'withdrawn'],
  consentBy: CONSENT_BY,
  consentForm: CONSENT_FORMS,
  preparation: ['checked'],
  position: POSITIONS,
  armFinding: ARM_FINDINGS,
  identifiedBy: IDENTIFIED_BY,
  decision: NAMED_DECISIONS,
  approval: DECISION_SUBJECTS,
  handling: HANDLING,
  within: ['limit'],
  missing: MISSING_WHY,
  name: ['none'],
  discard: ['most'],
  volume: ['assumed'],
  swapped: ['blood', 'unknown'],
  antiseptic: ANTISEPTICS,
  anticoagulant: ANTICOAGULANTS,
  antisepticAllergy: ANTISEPTIC_ALLERGIES,
  arm: ARMS,
  restriction: ['none', ...ARM_RESTRICTIONS, ...ARM_CLOSERS],
  vein: VEINS,
  needleKind: NEEDLE_KINDS,
  collecting: SKIN_PLACES,
  skin: ['lancet', 'site', 'elsewhere', 'label', 'none'],
  flash: ['straight'],
  wall: [...WALLS, 'notRecorded'],
  needle: ['set'],
  collector: ['later'],
  time: ['otherDay', 'otherOffset'],
  fill: [...FILLS, 'part', 'open'],
  role: TUBE_ROLES,
  tube: ['unplanned'],
  swap: SET_ASIDE,
  unlabelled: UNLABELLED_ENDS,
  mixed: ['notNeeded', 'oldest'],
  spin: ['held'],
  courier: ['none'],
  lot: ['read', 'readBare', 'planned', 'notKnown'],
  handled: HANDLED,
  label: ['laboratory', 'read', 'scan', 'voice', 'touch', 'mismatch', 'none', 'sentAsIs'],
  labels: ['some'],
  outcome: OUTCOMES,
  endReason: END_REASONS,
  endedBy: [
    'exceptionHandled',
    'flashSeen',
    'needleOut',
    'flowRestored',
    'tubeFull',
    'tubeShort',
    'tubeOn',
    'lastTube',
    'confirmSupplies',
    'labelsDone',
    'bandOff',
    'bleedingStopped',
    'resumeDraw',
    'colleagueHere',
    'proceed',
    'stop',
    ...UNLABELLED_ENDS,
    'open',
  ],
  planRevised: ['furtherNeedle', 'otherSet'],
  clock: ['stepped', 'corrected', 'away', 'awayUnknown', 'bandWasOn'],
  band: ['on', 'off', 'offMissing', 'over', 'range'],
  blood: ['sum', 'least'],
  event: WORDED_EVENTS,
  priority: PRIORITIES,
  moment: MOMENTS,
  sitting: [
    'part',
    'begun',
    'due',
    'inTime',
    'early',
    'late',
    'noMoment',
    'told',
    'corrected',
    'leftOut',
  ],
  lastDose: ['known', 'notKnown'],
} as const satisfies Readonly<Record<string, readonly string[]>>
export type NoteWordKind = keyof typeof NOTE_WORD_CODES
export type NoteWordCode<K extends NoteWordKind> = (typeof NOTE_WORD_CODES)[K][number]
