import type { DrawEvent, DrawEventType } from '../protocol/events.ts'

/**
 * Which events stand on the ruler of a draw: what happened at the arm and with the tubes, what went wrong, and what
 * became of the clocks. What was asked, said or written beside it is told by the note alone.
 */
const HAS_MARK = {
  drawOpened: false,
  identifierChecked: false,
  consentGiven: false,
  consentRefused: true,
  preparationChecked: false,
  notPrepared: false,
  decisionNamed: false,
  answerTaken: false,
  suppliesChecked: false,
  cardChecked: false,
  handsReady: false,
  positionTaken: false,
  armSeen: false,
  siteChosen: false,
  bandOn: true,
  bandOff: true,
  skinCleaned: true,
  skinDry: true,
  punctureBegun: true,
  needleIn: true,
  needleSetChosen: false,
  flashSeen: true,
  syringeFilled: true,
  transferOn: true,
  warmOn: true,
  siteWarm: true,
  lanced: true,
  wentToVein: true,
  dropWiped: true,
  squeezeNoted: true,
  tubeOn: true,
  tubeOff: true,
  tubeMixed: true,
  tubeHandled: true,
  // The card is on and off like a tube; drying takes hours that no ruler has room for.
  circleFilled: false,
  cardDried: false,
  bloodApproved: false,
  tubeSwapped: true,
  unlabelledSettled: false,
  tubeFell: true,
  lastTubeOff: false,
  needleOut: true,
  shieldClicked: true,
  sharpsDone: true,
  pressureOn: true,
  bleedingStopped: true,
  bandageOn: true,
  labelReadBack: false,
  lotRead: false,
  accessionTaken: false,
  noFurtherPuncture: false,
  labelsDone: true,
  aftercareTold: false,
  handsCleaned: false,
  specimensRacked: false,
  spinStarted: false,
  spinEnded: false,
  separated: false,
  aliquoted: false,
  stored: false,
  bagged: false,
  courierTook: false,
  droppedOff: false,
  labReceived: false,
  labRejected: false,
  momentNoted: false,
  sittingsLeftOut: false,
  seriesWentOn: false,
  exceptionRaised: true,
  exceptionEnded: true,
  // Of the exposure record; the name that follows stands at its time.
  colleagueTook: false,
  collectorChanged: true,
  fistNoted: true,
  noteAdded: false,
  exposureNoted: false,
  patientLanguageChosen: false,
  flagRaised: true,
  cueGiven: false,
  clockStepped: true,
  awayNoticed: true,
  planRevised: false,
  entryUndone: true,
  drawClosed: true,
  addendumMade: false,
} as const satisfies Readonly<Record<DrawEventType, boolean>>

/** The types of event that have a mark on the ruler. */
export type MarkedType = {
  [T in DrawEventType]: (typeof HAS_MARK)[T] extends true ? T : never
}[DrawEventType]

export type MarkedEvent = Extract<DrawEvent, { type: MarkedType }>

export function isMarked(event: DrawEvent): event is MarkedEvent {
  return HAS_MARK[event.type]
}
