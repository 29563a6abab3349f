import type { CommandKey } from './commands.ts'

/** What is known of one command, whatever state the draw is in. What it does in a state is in `rules.ts`. */
export interface CommandRow {
  /**
   * Who answers it: a row of the rules, a decision with a file of its own, or the app itself, which it steers and
   * which leaves no trace of it in the record.
   */
  readonly by: 'rule' | 'own' | 'app'
  /** Open at every step, with its button in the safety row or somewhere of its own. */
  readonly alwaysOpen?: 'safetyRow' | 'apart'
  /** Acts on the first hearing, also while a prompt plays. */
  readonly safety?: true
  /** Something to stop for: shown as such. */
  readonly tone?: 'stop'
  /** May be recorded though the step does not call for it. */
  readonly outOfOrder?: true
  /** Opened at any step by what was passed over, or by a needle that was in: see `owed` in `openCommands.ts`. */
  readonly owed?: 'identity' | 'consent' | 'pause' | 'body'
  /** Of those with a rule: recorded after the close as well, for the specimens' way and late trouble. */
  readonly afterClose?: true
  /** Answers a question. */
  readonly answer?: 'yes' | 'no' | 'why'
}

/** One row a command, in the order of the buttons where several are shown. */
// prettier-ignore
export const COMMAND_TABLE = {
  stopEverything:     { by: 'rule', alwaysOpen: 'safetyRow', safety: true, tone: 'stop' },
  faint:              { by: 'rule', alwaysOpen: 'safetyRow', safety: true, tone: 'stop', afterClose: true },
  sharpPain:          { by: 'rule', alwaysOpen: 'safetyRow', safety: true, tone: 'stop', afterClose: true },
  swelling:           { by: 'rule', alwaysOpen: 'safetyRow', safety: true, tone: 'stop', afterClose: true },
  needlestick:        { by: 'rule', alwaysOpen: 'safetyRow', safety: true, tone: 'stop', afterClose: true },
  goBack:             { by: 'own', alwaysOpen: 'safetyRow' },
  sayAgain:           { by: 'app', alwaysOpen: 'safetyRow' },
  howLong:            { by: 'app', alwaysOpen: 'safetyRow' },
  pauseListening:     { by: 'app', alwaysOpen: 'apart' },
  resumeListening:    { by: 'app', alwaysOpen: 'apart' },
  tonesOnly:          { by: 'app', alwaysOpen: 'apart' },
  wordsAgain:         { by: 'app', alwaysOpen: 'apart' },
  confirmYes:         { by: 'app', answer: 'yes' },
  confirmNo:          { by: 'app', answer: 'no' },

  confirmPreparation: { by: 'rule' },
  latexNo:            { by: 'rule' },
  latexYes:           { by: 'rule' },
  faintedNo:          { by: 'rule', outOfOrder: true },
  faintedYes:         { by: 'rule', outOfOrder: true },
  confirmSupplies:    { by: 'rule' },
  confirmHands:       { by: 'rule' },
  seated:             { by: 'rule', outOfOrder: true },
  lyingDown:          { by: 'rule', outOfOrder: true },
  bandOn:             { by: 'rule', outOfOrder: true },
  bandOff:            { by: 'rule', outOfOrder: true },
  skinClean:          { by: 'rule', outOfOrder: true },
  skinDry:            { by: 'rule' },
  needleIn:           { by: 'rule', outOfOrder: true },
  flashSeen:          { by: 'rule' },
  noFlash:            { by: 'rule' },
  needleOut:          { by: 'rule', outOfOrder: true },
  pressureOn:         { by: 'rule', outOfOrder: true, afterClose: true },
  tubeOn:             { by: 'rule', outOfOrder: true },
  tubeFull:           { by: 'rule', outOfOrder: true },
  tubeShort:          { by: 'rule', outOfOrder: true },
  tubeEmpty:          { by: 'rule', outOfOrder: true },
  tubeMixed:          { by: 'rule', outOfOrder: true },
  onIce:              { by: 'rule', outOfOrder: true, afterClose: true },
  keptWarm:           { by: 'rule', outOfOrder: true, afterClose: true },
  keptDark:           { by: 'rule', outOfOrder: true, afterClose: true },
  lastTube:           { by: 'rule', outOfOrder: true },
  shieldClicked:      { by: 'rule', outOfOrder: true },
  sharpsDone:         { by: 'rule', outOfOrder: true },
  bleedingStopped:    { by: 'rule', outOfOrder: true, afterClose: true },
  bandageOn:          { by: 'rule', outOfOrder: true, afterClose: true },

  bleedingContinues:  { by: 'rule', outOfOrder: true, afterClose: true },
  brightBlood:        { by: 'rule', outOfOrder: true, owed: 'body', tone: 'stop' },
  nausea:             { by: 'rule', outOfOrder: true, owed: 'body', afterClose: true },
  withdrawConsent:    { by: 'rule', outOfOrder: true, tone: 'stop' },
  veinRolled:         { by: 'rule', outOfOrder: true },
  slowFlow:           { by: 'rule', outOfOrder: true },
  flowLost:           { by: 'rule', outOfOrder: true },
  flowRestored:       { by: 'rule' },
  noVacuum:           { by: 'rule', outOfOrder: true },
  wrongTube:          { by: 'rule', outOfOrder: true },
  expiredTube:        { by: 'rule', outOfOrder: true },
  droppedTube:        { by: 'rule', outOfOrder: true, afterClose: true },
  tubeIntact:         { by: 'rule', outOfOrder: true, afterClose: true },
  unlabelledTube:     { by: 'rule', outOfOrder: true, afterClose: true },
  fistSeen:           { by: 'rule', outOfOrder: true },

  warmOn:             { by: 'rule', outOfOrder: true },
  siteWarm:           { by: 'rule', outOfOrder: true },
  lanced:             { by: 'rule', outOfOrder: true },
  dropWiped:          { by: 'rule', outOfOrder: true },
  squeezed:           { by: 'rule', outOfOrder: true },
  slowDrops:          { by: 'rule', outOfOrder: true },
  transfusedNo:       { by: 'rule' },
  transfusedYes:      { by: 'rule', outOfOrder: true },
  cardChecked:        { by: 'rule', outOfOrder: true },
  circleGood:         { by: 'own', outOfOrder: true },
  cardDone:           { by: 'rule', outOfOrder: true },
  anotherCard:        { by: 'rule', outOfOrder: true },
  laidFlat:           { by: 'rule', outOfOrder: true, afterClose: true },
  cardDried:          { by: 'rule', outOfOrder: true, afterClose: true },
  syringeFull:        { by: 'rule', outOfOrder: true },
  syringeShort:       { by: 'rule', outOfOrder: true },
  transferOn:         { by: 'rule', outOfOrder: true },

  confirmPatient:     { by: 'rule', outOfOrder: true, owed: 'identity' },
  refuseIdentity:     { by: 'rule', outOfOrder: true, owed: 'identity', tone: 'stop' },
  confirmConsent:     { by: 'rule', outOfOrder: true, owed: 'consent' },
  refuseConsent:      { by: 'rule', outOfOrder: true, owed: 'consent', tone: 'stop' },
  interrupted:        { by: 'rule', outOfOrder: true, owed: 'pause' },
  resumeDraw:         { by: 'rule' },
  colleagueHere:      { by: 'rule' },
  exceptionHandled:   { by: 'own' },
  tryAgain:           { by: 'rule' },
  sameSet:            { by: 'rule' },

  printLabels:        { by: 'app' },
  labelMatches:       { by: 'own' },
  labelWrong:         { by: 'own' },
  labelsDone:         { by: 'rule', outOfOrder: true },
  aftercareTold:      { by: 'rule', outOfOrder: true },
  glovesOff:          { by: 'rule', outOfOrder: true },
  specimensRacked:    { by: 'own' },
  endDraw:            { by: 'own', outOfOrder: true },
  spinStarted:        { by: 'rule', afterClose: true },
  courierTook:        { by: 'rule', afterClose: true },
  drinkStarted:       { by: 'rule', outOfOrder: true, afterClose: true },
  drinkFinished:      { by: 'rule', outOfOrder: true, afterClose: true },
  doseGiven:          { by: 'rule', outOfOrder: true, afterClose: true },
  infusionEnded:      { by: 'rule', outOfOrder: true, afterClose: true },

  'chooseArm:left':   { by: 'own', outOfOrder: true },
  'chooseArm:right':  { by: 'own', outOfOrder: true },
  'chooseSide:left':  { by: 'own', outOfOrder: true },
  'chooseSide:right': { by: 'own', outOfOrder: true },
  'chooseVein:medianCubital': { by: 'own' },
  'chooseVein:cephalic':      { by: 'own' },
  'chooseVein:basilic':       { by: 'own' },
  'chooseVein:hand':          { by: 'own' },
  'chooseVein:other':         { by: 'own' },
  'identified:carer':       { by: 'own', owed: 'identity' },
  'identified:interpreter': { by: 'own', owed: 'identity' },
  'identified:wristband':   { by: 'own', owed: 'identity' },
  'antisepticAllergy:none':          { by: 'own' },
  'antisepticAllergy:chlorhexidine': { by: 'own' },
  'antisepticAllergy:iodine':        { by: 'own' },
  'antisepticAllergy:alcohol':       { by: 'own' },
  'antisepticAllergy:other':         { by: 'own' },
  'skinCleanWith:alcohol':              { by: 'own', outOfOrder: true },
  'skinCleanWith:chlorhexidineAlcohol': { by: 'own', outOfOrder: true },
  'skinCleanWith:povidoneIodine':       { by: 'own', outOfOrder: true },
  'skinCleanWith:alcoholFree':          { by: 'own', outOfOrder: true },
  'chooseSet:straight21': { by: 'own' },
  'chooseSet:straight22': { by: 'own' },
  'chooseSet:winged21':   { by: 'own' },
  'chooseSet:winged23':   { by: 'own' },
  'chooseSet:winged25':   { by: 'own' },
  'chooseSyringe:3':  { by: 'own', outOfOrder: true },
  'chooseSyringe:5':  { by: 'own', outOfOrder: true },
  'chooseSyringe:10': { by: 'own', outOfOrder: true },
  'chooseSyringe:20': { by: 'own', outOfOrder: true },
  'armFinding:none':     { by: 'own' },
  'armFinding:bruise':   { by: 'own' },
  'armFinding:scar':     { by: 'own' },
  'armFinding:infusion': { by: 'own' },
  'thinner:none':    { by: 'own', outOfOrder: true },
  'thinner:heparin': { by: 'own', outOfOrder: true },
  'thinner:other':   { by: 'own', outOfOrder: true },
  'thinner:unknown': { by: 'own', outOfOrder: true },
  'consentFrom:guardian':        { by: 'own', owed: 'consent' },
  'consentFrom:guardianWritten': { by: 'own', owed: 'consent' },
  'consentFrom:interpreter':     { by: 'own', owed: 'consent' },
  'consentFrom:written':         { by: 'own', owed: 'consent' },
  'consentFrom:implied':         { by: 'own', owed: 'consent' },
  'ageTold:underDay':   { by: 'own' },
  'ageTold:dayOrMore':  { by: 'own' },
  'feeding:breast':     { by: 'own' },
  'feeding:formula':    { by: 'own' },
  'feeding:parenteral': { by: 'own' },
  'feeding:nothing':    { by: 'own' },
  'circleBad:insufficient': { by: 'own', outOfOrder: true },
  'circleBad:layered':      { by: 'own', outOfOrder: true },
  'circleBad:clotted':      { by: 'own', outOfOrder: true },
  'unlabelledIs:1': { by: 'own' },
  'unlabelledIs:2': { by: 'own' },
  'unlabelledIs:3': { by: 'own' },
  'unlabelledIs:4': { by: 'own' },
  'unlabelledIs:5': { by: 'own' },
  'unlabelledIs:6': { by: 'own' },
  'unlabelledEnd:stayedInHand': { by: 'own' },
  'unlabelledEnd:discarded':    { by: 'own' },
  'unlabelledEnd:sentAsIs':     { by: 'own' },
  'goToVein:notEnough': { by: 'own', outOfOrder: true },
  'goToVein:needsVein': { by: 'own', outOfOrder: true },
  'goToVein:decided':   { by: 'own', outOfOrder: true },
  'endBecause:absent':    { by: 'own', answer: 'why' },
  'endBecause:noVein':    { by: 'own', answer: 'why' },
  'endBecause:unwell':    { by: 'own', answer: 'why' },
  'endBecause:cancelled': { by: 'own', answer: 'why' },
} as const satisfies Readonly<Record<CommandKey, CommandRow>>

type AnsweredBy<By extends CommandRow['by']> = {
  [Key in CommandKey]: (typeof COMMAND_TABLE)[Key]['by'] extends By ? Key : never
}[CommandKey]

/** Commands that must have a rule. */
export type RuledCommand = AnsweredBy<'rule'>
/** Commands that only steer the app. */
export type SteeringCommand = AnsweredBy<'app'>

export function rowOf(key: CommandKey): CommandRow {
  return COMMAND_TABLE[key]
}

/** The commands whose rows pass a test, in the order of the table. */
export function commandsWhere(test: (row: CommandRow) => boolean): readonly CommandKey[] {
  return (Object.keys(COMMAND_TABLE) as CommandKey[]).filter((key) => test(COMMAND_TABLE[key]))
}

/** What steers the app, and trouble that may be said at any time. */
export const ALWAYS_OPEN = commandsWhere(({ alwaysOpen }) => alwaysOpen !== undefined)

/** Safety commands: they act on the first hearing, also while a prompt plays. */
export const SAFETY_COMMANDS = commandsWhere(({ safety }) => safety === true)

export function isCommandKey(key: string): key is CommandKey {
  return Object.hasOwn(COMMAND_TABLE, key)
}

/** True for a command that steers the app and leaves no trace in the record. */
export function isSteering(type: string): type is SteeringCommand {
  return isCommandKey(type) && rowOf(type).by === 'app'
}
