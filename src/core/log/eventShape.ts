import { LANGUAGES } from '../basics/language.ts'
import {
  AGES_TOLD,
  ANTICOAGULANTS,
  ANTISEPTIC_ALLERGIES,
  ARMS,
  DECISION_SUBJECTS,
  FEEDINGS,
} from '../order/order.ts'
import { NOTED_MOMENTS } from '../order/sitting.ts'
import { SKIN_PLACES } from '../order/collecting.ts'
import { FILLS } from '../plan/plan.ts'
import { ANTISEPTICS } from '../protocol/antiseptics.ts'
import { REJECT_REASONS, SPIN_TEMPERATURES, STORE_PLACES } from '../protocol/benchEvents.ts'
import {
  ARM_FINDINGS,
  CIRCLE_FINDINGS,
  CONSENT_BY,
  CONSENT_FORMS,
  END_REASONS,
  FLAGS,
  IDENTIFIED_BY,
  IDENTIFIERS,
  NAMED_DECISIONS,
  OUTCOMES,
  POSITIONS,
  SET_ASIDE,
  UNLABELLED_ENDS,
  VEIN_REASONS,
  VEINS,
  type DrawEventType,
} from '../protocol/events.ts'
import { HANDLED } from '../protocol/handled.ts'
import { EXCEPTION_KINDS } from '../protocol/exceptions.ts'
import {
  approvalShape,
  collectorShape,
  goAheadShape,
  needleSetShape,
  orderShape,
  patientShape,
  planShape,
  fillCorrectionShape,
  policyChangeShape,
  policyShape,
  preparationShape,
  recollectsShape,
  sittingShape,
} from './orderShape.ts'
import { entryFaultBy } from './entryFault.ts'
import type { LogFault } from './fault.ts'
import {
  count,
  flag,
  length,
  listOf,
  number,
  oneOf,
  oneOrMore,
  optional,
  shapeOf,
  text,
  time,
  type Shape,
} from './shape.ts'

const bare = shapeOf({})
const ofTube = shapeOf({ tubeId: text })
const kind = oneOf(EXCEPTION_KINDS)
const ofBench = (fields: Readonly<Record<string, Shape>>): Shape =>
  shapeOf({ tubeIds: listOf(text), act: optional(text), at_ms: optional(time), ...fields })

/** What each event must carry. The type makes it a fault of the build to forget one. */
const EVENT_SHAPES: Readonly<Record<DrawEventType, Shape>> = {
  drawOpened: shapeOf({
    drawId: text,
    device: text,
    invented: flag,
    site: text,
    patient: patientShape,
    order: orderShape,
    preparation: preparationShape,
    needleSet: needleSetShape,
    collecting: optional(oneOf(SKIN_PLACES)),
    collector: collectorShape,
    plan: planShape,
    policy: policyShape,
    policyChanges: listOf(policyChangeShape),
    labelsBy: optional(oneOf(['laboratory'])),
    approvals: optional(listOf(approvalShape)),
    sitting: optional(sittingShape),
    fillCorrections: optional(listOf(fillCorrectionShape)),
    patientLanguage: optional(oneOf(LANGUAGES)),
    script: optional(text),
    listed: optional(listOf(text)),
    recollects: optional(recollectsShape),
  }),
  identifierChecked: shapeOf({
    identifier: oneOf(IDENTIFIERS),
    matches: flag,
    how: optional(oneOf(IDENTIFIED_BY)),
  }),
  consentGiven: shapeOf({
    by: optional(oneOf(CONSENT_BY)),
    form: optional(oneOf(CONSENT_FORMS)),
  }),
  consentRefused: bare,
  preparationChecked: bare,
  notPrepared: shapeOf({ what: text }),
  decisionNamed: shapeOf({
    decision: oneOf(NAMED_DECISIONS),
    by: text,
    about: optional(oneOf(DECISION_SUBJECTS)),
    arm: optional(oneOf(ARMS)),
    why: optional(text),
  }),
  answerTaken: shapeOf({
    answer: shapeOf({
      latexAllergy: optional(flag),
      anticoagulant: optional(oneOf(ANTICOAGULANTS)),
      faintedBefore: optional(flag),
      antisepticAllergy: optional(oneOrMore(oneOf(ANTISEPTIC_ALLERGIES))),
      ageTold: optional(oneOf(AGES_TOLD)),
      feeding: optional(oneOf(FEEDINGS)),
      transfused: optional(flag),
    }),
  }),
  suppliesChecked: bare,
  cardChecked: bare,
  handsReady: bare,
  positionTaken: shapeOf({ position: oneOf(POSITIONS) }),
  armSeen: shapeOf({ arm: oneOf(ARMS), finding: oneOf(ARM_FINDINGS) }),
  siteChosen: shapeOf({
    arm: oneOf(ARMS),
    vein: optional(oneOf(VEINS)),
    elsewhere: optional(flag),
  }),
  bandOn: bare,
  bandOff: bare,
  skinCleaned: shapeOf({ with: optional(oneOf(ANTISEPTICS)) }),
  skinDry: bare,
  punctureBegun: shapeOf({ number: count }),
  needleIn: shapeOf({ attempt: count }),
  needleSetChosen: shapeOf({ set: needleSetShape }),
  flashSeen: bare,
  syringeFilled: shapeOf({
    fill: oneOf(FILLS),
    planned_mL: number,
    estimate_mL: optional(number),
  }),
  transferOn: bare,
  warmOn: bare,
  siteWarm: bare,
  wentToVein: shapeOf({ why: oneOf(VEIN_REASONS) }),
  lanced: shapeOf({ attempt: count }),
  dropWiped: bare,
  squeezeNoted: bare,
  tubeOn: ofTube,
  tubeOff: shapeOf({
    tubeId: text,
    fill: oneOf(FILLS),
    estimate_mL: optional(length),
  }),
  tubeMixed: ofTube,
  tubeHandled: shapeOf({ tubeId: text, how: oneOf(HANDLED) }),
  circleFilled: shapeOf({ tubeId: text, finding: oneOf(CIRCLE_FINDINGS) }),
  cardDried: ofTube,
  tubeFell: ofTube,
  unlabelledSettled: shapeOf({ tubeId: text, how: oneOf(UNLABELLED_ENDS), by: text }),
  bloodApproved: shapeOf({ by: text, why: text }),
  tubeSwapped: shapeOf({
    tubeId: text,
    why: oneOf(SET_ASIDE),
    redrawnAs: optional(count),
  }),
  lastTubeOff: bare,
  needleOut: bare,
  shieldClicked: bare,
  sharpsDone: bare,
  pressureOn: bare,
  bleedingStopped: bare,
  bandageOn: bare,
  labelReadBack: shapeOf({
    tubeId: text,
    specimenNumber: text,
    how: oneOf(['read', 'scan', 'voice', 'touch']),
    matches: flag,
  }),
  lotRead: shapeOf({ tubeId: text, lot: text, expires: optional(text), how: oneOf(['scan']) }),
  accessionTaken: shapeOf({ tubeId: text, accession: text, how: oneOf(['scan', 'typed']) }),
  noFurtherPuncture: shapeOf({ reason: optional(oneOf(END_REASONS)) }),
  labelsDone: bare,
  aftercareTold: shapeOf({ language: optional(oneOf(LANGUAGES)) }),
  patientLanguageChosen: shapeOf({ language: oneOf(LANGUAGES) }),
  handsCleaned: bare,
  specimensRacked: bare,
  spinStarted: ofBench({
    g: optional(length),
    spin_min: optional(length),
    temperature: optional(oneOf(SPIN_TEMPERATURES)),
    rpm: optional(length),
    rotor: optional(text),
  }),
  spinEnded: ofBench({}),
  separated: ofBench({}),
  aliquoted: ofBench({ portions: count }),
  stored: ofBench({ where: oneOf(STORE_PLACES) }),
  bagged: ofBench({ bag: text }),
  courierTook: ofBench({
    // An older log holds nothing but that it happened.
    tubeIds: optional(listOf(text)),
    courier: optional(text),
    pack: optional(text),
    laboratory: optional(text),
  }),
  droppedOff: ofBench({ to: text, by: optional(text) }),
  labReceived: ofBench({ by: optional(text) }),
  labRejected: ofBench({ reason: oneOf(REJECT_REASONS), note: optional(text) }),
  momentNoted: shapeOf({
    moment: oneOf(NOTED_MOMENTS),
    at_ms: optional(time),
    why: optional(text),
  }),
  sittingsLeftOut: shapeOf({
    sittings: listOf(shapeOf({ code: text, number: count })),
    why: text,
  }),
  seriesWentOn: goAheadShape,
  exceptionRaised: shapeOf({ kind, tubeId: optional(text), note: optional(text) }),
  exceptionEnded: shapeOf({ kind, how: text }),
  colleagueTook: bare,
  collectorChanged: shapeOf({ to: collectorShape }),
  fistNoted: bare,
  noteAdded: shapeOf({ text }),
  exposureNoted: shapeOf({ text }),
  flagRaised: shapeOf({ flag: oneOf(FLAGS), detail: optional(text) }),
  cueGiven: shapeOf({ clock: text, cue: text, late_ms: length }),
  clockStepped: shapeOf({ by_ms: length }),
  awayNoticed: shapeOf({ away_ms: length, bandWasOn: flag }),
  planRevised: shapeOf({ plan: planShape, why: text }),
  entryUndone: shapeOf({ seq: count }),
  drawClosed: shapeOf({
    outcome: oneOf(OUTCOMES),
    reason: optional(text),
  }),
  addendumMade: shapeOf({
    by: collectorShape,
    text,
    why: text,
    wrongPerson: optional(flag),
  }),
}

/** Says what is wrong with the entry of that number in a log of the current version, or `undefined`. */
export function entryFault(entry: unknown, seq: number): LogFault | undefined {
  return entryFaultBy(EVENT_SHAPES, entry, seq)
}
