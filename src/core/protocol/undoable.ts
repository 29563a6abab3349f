import { BENCH_ACTS } from './benchEvents.ts'
import type { DrawEventType } from './events.ts'

/**
 * Whether a person can take an entry back. What nobody confirmed, nobody can; what ends a draw is corrected by an
 * addendum.
 */
export const UNDOABLE = {
  drawOpened: false,
  identifierChecked: true,
  consentGiven: true,
  consentRefused: true,
  preparationChecked: true,
  notPrepared: true,
  decisionNamed: true,
  answerTaken: true,
  suppliesChecked: true,
  cardChecked: true,
  circleFilled: true,
  cardDried: true,
  handsReady: true,
  positionTaken: true,
  armSeen: true,
  siteChosen: true,
  bandOn: true,
  bandOff: true,
  skinCleaned: true,
  skinDry: true,
  punctureBegun: true,
  needleIn: true,
  needleSetChosen: true,
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
  tubeFell: true,
  unlabelledSettled: true,
  bloodApproved: true,
  tubeSwapped: true,
  lastTubeOff: true,
  needleOut: true,
  shieldClicked: true,
  sharpsDone: true,
  pressureOn: true,
  bleedingStopped: true,
  bandageOn: true,
  labelReadBack: true,
  lotRead: true,
  accessionTaken: true,
  noFurtherPuncture: true,
  labelsDone: true,
  aftercareTold: true,
  handsCleaned: true,
  specimensRacked: true,
  ...BENCH_ACTS,
  momentNoted: true,
  sittingsLeftOut: true,
  seriesWentOn: true,
  exceptionRaised: true,
  exceptionEnded: true,
  colleagueTook: true,
  collectorChanged: true,
  fistNoted: true,
  noteAdded: true,
  exposureNoted: true,
  patientLanguageChosen: true,
  flagRaised: true,
  cueGiven: false,
  clockStepped: false,
  awayNoticed: false,
  planRevised: false,
  entryUndone: false,
  drawClosed: false,
  addendumMade: false,
} as const satisfies Readonly<Record<DrawEventType, boolean>>

/** Events that a person can take back. */
export type UndoableEvent = {
  [Type in DrawEventType]: (typeof UNDOABLE)[Type] extends true ? Type : never
}[DrawEventType]

export function isUndoable(type: DrawEventType): type is UndoableEvent {
  return UNDOABLE[type]
}

export const UNDOABLE_EVENTS = (Object.keys(UNDOABLE) as DrawEventType[]).filter(isUndoable)
