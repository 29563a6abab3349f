import { mustBeNamed } from './antisepticChoice.ts'
import { cardIsOn, cardIsWanted, circlesLeft, isFurtherCard, wetCards } from './card.ts'
import type { CommandKey, PlainCommand } from './commands.ts'
import * as draw from './facts.ts'
import { isSpun, toHandle, unhandled } from './handled.ts'
import type { DrawState } from './state.ts'
import {
  hasSyringe,
  isDripping,
  holdsBlood,
  isPulling,
  isTransferring,
  mayTransfer,
  onlyDrops,
  pullIsOpen,
  showsFlash,
  wantsSyringe,
} from './syringe.ts'

export const STEP_IDS = [
  'wristband',
  'identity',
  'consent',
  'preparation',
  'decision',
  'latex',
  'thinner',
  'fainted',
  'supplies',
  'hands',
  'find',
  'site',
  'vein',
  'found',
  'set',
  'cleanse',
  'dry',
  'band',
  'needle',
  'flash',
  'filling',
  'release',
  'mix',
  'tube',
  'takeOff',
  'lastTube',
  'needleOut',
  'pressure',
  'shield',
  'sharps',
  'handling',
  'bleeding',
  'bandage',
  'handled',
  'again',
  'colleague',
  'unlabelled',
  'labels',
  'aftercare',
  'rack',
  'end',
  'spin',
  'courier',
  'finished',
  'side',
  'warm',
  'lance',
  'wipe',
  'drops',
  'press',
  'lancetAway',
  'provider',
  'born',
  'feeding',
  'transfused',
  'card',
  'circle',
  'cardOff',
  'cardDry',
  'pull',
  'transfer',
  'vacuum',
] as const
export type StepId = (typeof STEP_IDS)[number]

/** One row of the draw: when it is the turn of a step, what confirms it, and what else may be said meanwhile. */
export interface StepRow {
  readonly id: StepId
  /** The first row for which this holds is the step of the moment. */
  readonly when: (s: DrawState) => boolean
  readonly main: PlainCommand | undefined | ((s: DrawState) => PlainCommand | undefined)
  readonly also: readonly CommandKey[]
}

const open = (s: DrawState): boolean => s.closed === undefined
const before = (s: DrawState): boolean =>
  open(s) && !s.puncture.needleIn && !s.puncture.ending && !draw.drawIsEnding(s)
const skin = (s: DrawState): boolean => draw.isCapillary(s)
const inVein = (s: DrawState): boolean => draw.needleIsIn(s)
const inSkin = (s: DrawState): boolean => skin(s) && draw.needleIsIn(s)
const after = (s: DrawState): boolean => s.puncture.needleOut !== undefined
const pricked = (s: DrawState): boolean => draw.exceptionIsOpen(s, 'needlestick')
/** Blood may be taken through the needle that is in. */
const drawing = (s: DrawState): boolean => inVein(s) && !mustStop(s)
const mustStop = (s: DrawState): boolean => s.puncture.ending || draw.drawIsEnding(s) || after(s)

const VEIN_TROUBLE = ['veinRolled', 'brightBlood', 'nausea', 'withdrawConsent'] as const
const TUBE_TROUBLE = [
  'slowFlow',
  'flowLost',
  'noVacuum',
  'wrongTube',
  'expiredTube',
  'brightBlood',
  'nausea',
  'withdrawConsent',
] as const
const VEINS = [
  'chooseVein:medianCubital',
  'chooseVein:cephalic',
  'chooseVein:basilic',
  'chooseVein:hand',
  'chooseVein:other',
] as const
const ARMS = ['chooseArm:left', 'chooseArm:right'] as const
const IDENTIFIED = ['identified:carer', 'identified:interpreter', 'identified:wristband'] as const
const ALLERGIES = ['antisepticAllergy:none', 'antisepticAllergy:chlorhexidine', 'antisepticAllergy:iodine', 'antisepticAllergy:alcohol', 'antisepticAllergy:other'] as const // prettier-ignore
const SEEN = [
  'armFinding:none',
  'armFinding:bruise',
  'armFinding:scar',
  'armFinding:infusion',
] as const
const THINNERS = ['thinner:none', 'thinner:heparin', 'thinner:other', 'thinner:unknown'] as const
const CONSENTS = ['consentFrom:guardian', 'consentFrom:guardianWritten', 'consentFrom:interpreter', 'consentFrom:written', 'consentFrom:implied'] as const // prettier-ignore
const CLEANERS = ['skinCleanWith:alcohol', 'skinCleanWith:chlorhexidineAlcohol', 'skinCleanWith:povidoneIodine', 'skinCleanWith:alcoholFree'] as const // prettier-ignore
const SETS = ['chooseSet:straight21', 'chooseSet:straight22', 'chooseSet:winged21', 'chooseSet:winged23', 'chooseSet:winged25'] as const // prettier-ignore
const UNLABELLED = ['unlabelledIs:1', 'unlabelledIs:2', 'unlabelledIs:3', 'unlabelledIs:4', 'unlabelledIs:5', 'unlabelledIs:6', 'unlabelledEnd:stayedInHand', 'unlabelledEnd:discarded', 'unlabelledEnd:sentAsIs'] as const // prettier-ignore
const CARD = ['anotherCard'] as const
const TO_VEIN = ['goToVein:notEnough', 'goToVein:needsVein', 'goToVein:decided'] as const
/** Where the provider is asked first, what was decided comes before what anybody may judge. */
const ASKED_VEIN = ['goToVein:decided', 'goToVein:needsVein', 'goToVein:notEnough'] as const
const SIDES = ['chooseSide:left', 'chooseSide:right'] as const
const DROP_TROUBLE = [
  'slowDrops',
  'squeezed',
  'wrongTube',
  'expiredTube',
  'nausea',
  'withdrawConsent',
] as const
const SYRINGES = ['chooseSyringe:3', 'chooseSyringe:5', 'chooseSyringe:10', 'chooseSyringe:20'] as const // prettier-ignore
/** Somebody presses on the place while the syringe is emptied. */
const PRESSED = ['bleedingStopped', 'bleedingContinues'] as const
const OUT = ['needleOut', 'pressureOn'] as const
const HANDLE = ['onIce', 'keptWarm', 'keptDark', 'laidFlat'] as const
const FEEDS = [
  'feeding:breast',
  'feeding:formula',
  'feeding:parenteral',
  'feeding:nothing',
] as const
const BAD_CIRCLES = ['circleBad:insufficient', 'circleBad:layered', 'circleBad:clotted'] as const
const LABEL = ['labelMatches', 'labelWrong', 'labelsDone', 'unlabelledTube', 'printLabels'] as const

/**
 * The whole draw, read from the top: the first row whose turn it is shows on the screen.
 * `when` is the turn, `main` what confirms it, `also` what else may be said meanwhile.
 * The vein is found with the band on, and the band comes off again: a first stretch apart from that of the draw. It is
 * passed by naming the arm. Then cleansing stands before the band so that the band's minute is kept for the needle and the tubes; a person who puts
 * the band on first simply says so, and either order is recorded as it happened. The band comes off as blood enters the
 * first tube (training pages of a phlebotomy educator and of a hospital authority), unless flow falters.
 */
// prettier-ignore
export const STEPS: readonly StepRow[] = [
  // Something was raised, or the needle is out: first everything off and out of the arm.
  { id: 'release', when: (s) => draw.bandIsOn(s) && mustStop(s), main: 'bandOff', also: ['tubeFull', 'tubeShort', 'tubeEmpty', ...OUT] },
  { id: 'takeOff', when: (s) => draw.tubeIsOn(s) && mustStop(s) && !isTransferring(s), main: (s) => (cardIsOn(s) ? 'cardDone' : 'tubeShort'), also: ['tubeFull', 'tubeEmpty', 'bandOff', ...OUT] },
  { id: 'press', when: (s) => inSkin(s) && mustStop(s), main: 'pressureOn', also: ['tubeMixed', 'sharpsDone'] },
  { id: 'needleOut', when: (s) => inVein(s) && mustStop(s), main: 'pressureOn', also: ['needleOut', 'shieldClicked', 'tubeMixed'] },

  // Before the needle.
  { id: 'wristband', when: (s) => before(s) && draw.wristbandDiffers(s), main: undefined, also: ['refuseIdentity', 'endDraw', 'withdrawConsent'] },
  { id: 'identity', when: (s) => before(s) && !draw.identityAnswered(s), main: 'confirmPatient', also: [...IDENTIFIED, 'refuseIdentity'] },
  { id: 'consent', when: (s) => before(s) && s.consent === undefined, main: 'confirmConsent', also: [...CONSENTS, 'refuseConsent'] },
  { id: 'decision', when: (s) => before(s) && s.preparation === 'notPrepared', main: undefined, also: ['endDraw', 'withdrawConsent'] },
  { id: 'preparation', when: (s) => before(s) && s.preparation === 'open', main: 'confirmPreparation', also: ['latexNo', 'latexYes', ...ALLERGIES, 'refuseConsent'] },
  // What a person answers is never the main choice: Space alone would chart an answer that nobody gave.
  { id: 'latex', when: (s) => before(s) && !s.supplies && draw.answersOf(s).latexAllergy === undefined, main: undefined, also: ['latexNo', 'latexYes', 'withdrawConsent'] },
  // What need not be known is passed by saying the next thing, and is then charted as not asked.
  { id: 'thinner', when: (s) => before(s) && !s.supplies && draw.answersOf(s).anticoagulant === 'notAsked', main: undefined, also: [...THINNERS, 'confirmSupplies', 'withdrawConsent'] },
  { id: 'fainted', when: (s) => before(s) && !s.supplies && draw.answersOf(s).faintedBefore === undefined, main: undefined, also: ['faintedNo', 'faintedYes', 'confirmSupplies', 'withdrawConsent'] },
  { id: 'born', when: (s) => before(s) && !s.supplies && cardIsWanted(s) && ageIsOpen(s), main: undefined, also: ['ageTold:underDay', 'ageTold:dayOrMore', 'confirmSupplies', 'withdrawConsent'] },
  { id: 'feeding', when: (s) => before(s) && !s.supplies && cardIsWanted(s) && draw.answersOf(s).feeding === undefined, main: undefined, also: [...FEEDS, 'confirmSupplies', 'withdrawConsent'] },
  { id: 'transfused', when: (s) => before(s) && !s.supplies && cardIsWanted(s) && draw.answersOf(s).transfused === undefined, main: undefined, also: ['transfusedNo', 'transfusedYes', 'confirmSupplies', 'withdrawConsent'] },
  { id: 'supplies', when: (s) => before(s) && !s.supplies, main: 'confirmSupplies', also: [...SYRINGES, 'expiredTube', 'wrongTube', 'withdrawConsent'] },
  { id: 'card', when: (s) => before(s) && cardIsWanted(s) && !s.cardChecked, main: 'cardChecked', also: ['expiredTube', 'wrongTube', 'confirmHands', 'withdrawConsent'] },
  { id: 'hands', when: (s) => before(s) && !s.hands, main: 'confirmHands', also: ['withdrawConsent'] },
  // The arm was given up with the band on it.
  { id: 'release', when: (s) => before(s) && !s.puncture.arm && draw.currentBand(s)?.arm !== undefined, main: 'bandOff', also: [...ARMS, 'withdrawConsent'] },
  { id: 'side', when: (s) => skin(s) && before(s) && !s.puncture.arm, main: undefined, also: [...SIDES, 'seated', 'lyingDown', 'endDraw', 'withdrawConsent'] },
  { id: 'warm', when: (s) => skin(s) && before(s) && !s.puncture.warm, main: 'siteWarm', also: ['warmOn', ...SIDES, 'skinClean', 'withdrawConsent'] },
  { id: 'find', when: (s) => !skin(s) && before(s) && !s.puncture.arm && !s.puncture.bandSeen, main: 'bandOn', also: [...ARMS, 'seated', 'lyingDown', 'endDraw', 'withdrawConsent'] },
  { id: 'site', when: (s) => !skin(s) && before(s) && !s.puncture.arm, main: undefined, also: [...ARMS, 'seated', 'lyingDown', 'bandOn', 'bandOff', 'endDraw', 'withdrawConsent'] },
  { id: 'vein', when: (s) => !skin(s) && before(s) && !s.puncture.vein, main: undefined, also: [...VEINS, ...SEEN, ...ARMS, 'bandOn', 'bandOff', 'endDraw', 'withdrawConsent'] },
  { id: 'found', when: (s) => before(s) && draw.bandIsOn(s) && !s.puncture.cleaned, main: 'bandOff', also: ['skinClean', ...CLEANERS, ...SEEN, 'needleIn', 'withdrawConsent'] },
  { id: 'set', when: (s) => before(s) && setIsOpen(s), main: (s) => (draw.isFirstNeedle(s) || s.puncture.needleSet ? undefined : 'sameSet'), also: [...SETS, ...SYRINGES, 'skinClean', 'skinDry', 'bandOn', 'bandOff', 'withdrawConsent'] },
  { id: 'cleanse', when: (s) => before(s) && !s.puncture.cleaned, main: (s) => (mustBeNamed(s) ? undefined : 'skinClean'), also: ['skinClean', ...CLEANERS, 'bandOn', 'bandOff', 'withdrawConsent'] },
  { id: 'dry', when: (s) => before(s) && !s.puncture.dry, main: 'skinDry', also: ['skinClean', 'bandOn', 'bandOff', 'withdrawConsent'] },
  { id: 'lance', when: (s) => skin(s) && before(s), main: 'lanced', also: ['skinClean', 'withdrawConsent'] },
  { id: 'band', when: (s) => before(s) && !draw.bandIsOn(s), main: 'bandOn', also: ['needleIn', 'skinClean', 'withdrawConsent'] },
  { id: 'needle', when: before, main: 'needleIn', also: ['bandOff', 'skinClean', 'fistSeen', 'withdrawConsent'] },

  // Blood.
  { id: 'wipe', when: (s) => skin(s) && drawing(s) && !s.puncture.wiped && !draw.anyTubeIn(s, s.puncture.number), main: 'dropWiped', also: ['tubeOn', 'pressureOn', 'sharpsDone', ...DROP_TROUBLE] },
  { id: 'card', when: (s) => drawing(s) && circlesLeft(s) > 0 && !s.cardChecked && isFurtherCard(s), main: 'cardChecked', also: ['circleGood', 'pressureOn', 'sharpsDone', ...DROP_TROUBLE] },
  { id: 'circle', when: (s) => drawing(s) && circlesLeft(s) > 0, main: 'circleGood', also: [...BAD_CIRCLES, 'cardDone', 'cardChecked', 'pressureOn', 'sharpsDone', ...DROP_TROUBLE] },
  { id: 'cardOff', when: (s) => drawing(s) && cardIsOn(s), main: 'cardDone', also: ['pressureOn', 'sharpsDone', ...DROP_TROUBLE] },
  { id: 'drops', when: (s) => skin(s) && drawing(s) && draw.tubeIsOn(s), main: 'tubeFull', also: ['tubeShort', 'tubeEmpty', 'tubeMixed', ...HANDLE, 'pressureOn', 'sharpsDone', ...DROP_TROUBLE] },
  { id: 'flash', when: (s) => !skin(s) && drawing(s) && showsFlash(s) && !s.puncture.pulled && !s.puncture.flash && !draw.anyTubeIn(s, s.puncture.number), main: 'flashSeen', also: ['noFlash', 'bandOff', 'tubeOn', ...OUT, ...VEIN_TROUBLE] },
  { id: 'release', when: (s) => drawing(s) && isPulling(s) && draw.bandIsOn(s) && !draw.flowFalters(s), main: 'bandOff', also: ['syringeFull', 'syringeShort', 'slowFlow', 'flowLost', 'fistSeen', ...OUT, ...VEIN_TROUBLE] },
  { id: 'pull', when: (s) => drawing(s) && isPulling(s), main: 'syringeFull', also: ['syringeShort', 'slowFlow', 'flowLost', 'flowRestored', 'noFlash', 'bandOff', 'fistSeen', ...OUT, ...VEIN_TROUBLE] },
  { id: 'release', when: (s) => drawing(s) && draw.tubeIsOn(s) && draw.bandIsOn(s) && !draw.flowFalters(s), main: 'bandOff', also: ['tubeFull', 'tubeShort', 'tubeEmpty', 'tubeMixed', 'fistSeen', ...TUBE_TROUBLE, 'veinRolled', ...OUT] },
  { id: 'filling', when: (s) => drawing(s) && draw.tubeIsOn(s), main: 'tubeFull', also: ['bandOff', 'tubeShort', 'tubeEmpty', 'tubeMixed', ...HANDLE, 'fistSeen', ...TUBE_TROUBLE, 'flowRestored', 'veinRolled', ...OUT] },
  { id: 'release', when: (s) => drawing(s) && draw.bandIsOn(s) && noneLeft(s), main: 'bandOff', also: ['tubeMixed', 'lastTube', ...OUT] },
  { id: 'mix', when: (s) => drawing(s) && draw.unmixed(s).length > 0, main: 'tubeMixed', also: ['tubeOn', 'bandOff', 'lastTube', ...HANDLE, 'wrongTube', 'expiredTube', 'droppedTube', 'tubeIntact', 'flowLost', 'slowDrops', 'squeezed', 'sharpsDone', ...OUT, ...VEIN_TROUBLE] },
  { id: 'tube', when: (s) => drawing(s) && !noneLeft(s) && !hasSyringe(s), main: 'tubeOn', also: [...CARD, 'bandOff', 'lastTube', ...HANDLE, 'expiredTube', 'wrongTube', 'droppedTube', 'tubeIntact', 'flowLost', 'flowRestored', 'flashSeen', 'noFlash', 'slowDrops', 'squeezed', 'sharpsDone', ...OUT, ...VEIN_TROUBLE] },
  { id: 'press', when: inSkin, main: 'pressureOn', also: [...CARD, 'sharpsDone', ...HANDLE, 'squeezed', 'droppedTube', 'tubeIntact', 'nausea', 'withdrawConsent'] },
  { id: 'release', when: (s) => inVein(s) && draw.bandIsOn(s), main: 'bandOff', also: ['lastTube', ...OUT] },
  { id: 'lastTube', when: (s) => drawing(s) && !s.puncture.lastTubeOff && !hasSyringe(s), main: 'lastTube', also: [...HANDLE, 'wrongTube', 'droppedTube', 'tubeIntact', 'shieldClicked', ...OUT, ...VEIN_TROUBLE] },
  { id: 'needleOut', when: inVein, main: 'pressureOn', also: ['needleOut', 'shieldClicked', 'droppedTube'] },

  // After the needle.
  { id: 'pressure', when: (s) => after(s) && !s.puncture.pressureOn, main: 'pressureOn', also: ['shieldClicked', 'tubeMixed', ...HANDLE] },
  { id: 'lancetAway', when: (s) => skin(s) && after(s) && !s.puncture.sharps, main: 'sharpsDone', also: ['tubeMixed', ...HANDLE, 'bleedingStopped', 'bleedingContinues'] },
  { id: 'shield', when: (s) => !skin(s) && after(s) && !s.puncture.shield, main: 'shieldClicked', also: ['sharpsDone', 'tubeMixed', ...HANDLE, 'bleedingContinues'] },
  // Whoever was stuck washes once the sharp is safe and the place is pressed; blood in a syringe waits for the colleague.
  { id: 'sharps', when: (s) => pricked(s) && after(s) && !s.puncture.sharps && !holdsBlood(s), main: 'sharpsDone', also: ['tubeMixed', ...HANDLE, 'bleedingStopped', 'bleedingContinues'] },
  { id: 'handled', when: pricked, main: (s) => (s.closed ? 'exceptionHandled' : 'colleagueHere'), also: ['sharpsDone', 'tubeMixed', ...HANDLE, 'bleedingStopped', 'bleedingContinues', 'bandageOn'] },
  { id: 'pull', when: pullIsOpen, main: 'syringeShort', also: ['syringeFull', 'sharpsDone', ...PRESSED] },
  { id: 'drops', when: (s) => isTransferring(s) && isDripping(s), main: 'tubeFull', also: ['tubeShort', 'tubeEmpty', 'tubeMixed', ...HANDLE, 'wrongTube', 'expiredTube', 'droppedTube', ...PRESSED] },
  { id: 'vacuum', when: (s) => isTransferring(s) && draw.tubeIsOn(s), main: 'tubeFull', also: ['tubeShort', 'tubeEmpty', 'tubeMixed', ...HANDLE, 'noVacuum', 'wrongTube', 'expiredTube', 'droppedTube', ...PRESSED] },
  { id: 'mix', when: (s) => mayTransfer(s) && draw.unmixed(s).length > 0, main: 'tubeMixed', also: ['tubeOn', 'lastTube', ...HANDLE, 'wrongTube', 'expiredTube', 'droppedTube', 'tubeIntact', 'sharpsDone', ...PRESSED] },
  { id: 'transfer', when: (s) => isTransferring(s) && !s.puncture.transfer && !onlyDrops(s), main: 'transferOn', also: ['tubeOn', 'lastTube', 'sharpsDone', ...PRESSED] },
  { id: 'tube', when: isTransferring, main: 'tubeOn', also: ['lastTube', ...HANDLE, 'expiredTube', 'wrongTube', 'droppedTube', 'tubeIntact', 'sharpsDone', ...PRESSED] },
  { id: 'sharps', when: (s) => after(s) && !s.puncture.sharps, main: 'sharpsDone', also: ['tubeMixed', ...HANDLE, 'bleedingStopped', 'bleedingContinues'] },
  { id: 'mix', when: (s) => after(s) && draw.unmixed(s).length > 0, main: 'tubeMixed', also: ['bleedingStopped', 'bleedingContinues', 'bandageOn', 'droppedTube'] },
  { id: 'handling', when: (s) => unhandled(s).length > 0 && !inVein(s) && !before(s), main: handlingDone, also: [...HANDLE, 'bleedingStopped', 'bleedingContinues', 'bandageOn', 'droppedTube', 'tubeIntact'] },
  { id: 'bleeding', when: (s) => after(s) && !s.puncture.bleedingStopped, main: 'bleedingStopped', also: ['bleedingContinues', 'bandageOn', ...LABEL, 'droppedTube', 'tubeIntact'] },
  { id: 'bandage', when: (s) => after(s) && !s.puncture.bandage && !draw.tooYoungForBandage(s), main: 'bandageOn', also: ['bleedingContinues', ...LABEL, 'droppedTube', 'tubeIntact'] },
  { id: 'handled', when: draw.severeIsOpen, main: 'exceptionHandled', also: ['bleedingContinues'] },
  { id: 'colleague', when: (s) => open(s) && s.colleagueTook !== undefined, main: undefined, also: ['bleedingContinues'] },
  { id: 'wristband', when: (s) => open(s) && draw.attemptsInAll(s) > 0 && draw.wristbandDiffers(s) && !draw.identityAnswered(s), main: undefined, also: ['refuseIdentity', 'bleedingContinues'] },
  { id: 'identity', when: (s) => open(s) && draw.attemptsInAll(s) > 0 && !draw.identityAnswered(s), main: 'confirmPatient', also: [...IDENTIFIED, 'refuseIdentity'] },
  { id: 'unlabelled', when: (s) => open(s) && draw.unlabelledIsOpen(s), main: undefined, also: [...UNLABELLED, 'droppedTube', 'tubeIntact', 'bleedingContinues'] },
  { id: 'provider', when: (s) => skin(s) && open(s) && draw.isPaused(s) && !draw.mayTryAgain(s) && !draw.wasPricked(s), main: undefined, also: [...ASKED_VEIN, 'endDraw', ...LABEL, 'bleedingContinues', 'withdrawConsent'] },
  { id: 'colleague', when: (s) => open(s) && draw.isPaused(s) && !draw.mayTryAgain(s), main: undefined, also: ['endDraw', ...LABEL, 'bleedingContinues', 'withdrawConsent'] },
  { id: 'again', when: (s) => open(s) && draw.isPaused(s), main: 'tryAgain', also: [...TO_VEIN, 'endDraw', ...LABEL, 'bleedingContinues', 'withdrawConsent'] },
  { id: 'labels', when: (s) => open(s) && draw.goesToLaboratory(s) && !s.labelsDone, main: (s) => (draw.toReadBack(s).length > 0 ? 'labelMatches' : 'labelsDone'), also: [...CARD, 'goToVein:needsVein', 'labelsDone', 'labelWrong', 'unlabelledTube', 'droppedTube', 'tubeIntact', 'printLabels', 'bleedingContinues'] },
  { id: 'aftercare', when: (s) => open(s) && draw.attemptsInAll(s) > 0 && !s.aftercare, main: 'aftercareTold', also: ['glovesOff', 'bleedingContinues'] },
  { id: 'rack', when: (s) => open(s) && draw.goesToLaboratory(s) && !s.racked, main: 'specimensRacked', also: ['glovesOff', 'bleedingContinues', 'droppedTube'] },
  { id: 'end', when: open, main: 'endDraw', also: ['bleedingContinues'] },

  // After the patient has gone.
  { id: 'spin', when: (s) => draw.goesToLaboratory(s) && toSpin(s).length > 0 && !s.courier, main: 'spinStarted', also: ['courierTook'] },
  { id: 'cardDry', when: (s) => draw.goesToLaboratory(s) && wetCards(s).length > 0 && !s.courier, main: 'cardDried', also: ['laidFlat', 'courierTook'] },
  { id: 'courier', when: (s) => draw.goesToLaboratory(s) && !s.courier, main: 'courierTook', also: [] },
  { id: 'finished', when: () => true, main: undefined, also: [] },
]

/** The row whose turn it is. */
export function stepOf(s: DrawState): StepRow {
  const row = STEPS.find((step) => step.when(s))
  if (!row) throw new Error('The step table has no last row.')
  return row
}

/** The command that confirms the step of the moment. */
export function mainOf(s: DrawState): PlainCommand | undefined {
  const { main } = stepOf(s)
  return typeof main === 'function' ? main(s) : main
}

const ageIsOpen = (s: DrawState): boolean => {
  const { bornAt, ageTold } = draw.answersOf(s)
  return bornAt === undefined && ageTold === undefined
}

/** A further attempt is made with a new set: the same kind, or which. */
const setIsOpen = (s: DrawState): boolean =>
  !skin(s) && s.puncture.number > 1 && (!s.puncture.needleSet || wantsSyringe(s))

const noneLeft = (s: DrawState): boolean =>
  draw.nextTube(s) === undefined || s.puncture.lastTubeOff !== undefined

const DONE_BY = { ice: 'onIce', warm: 'keptWarm', light: 'keptDark', dryFlat: 'laidFlat' } as const

/** The first thing that is still to be done to a tube. */
function handlingDone(s: DrawState): PlainCommand {
  const [oldest] = unhandled(s)
  const [how] = oldest ? toHandle(s, oldest) : []
  return DONE_BY[how ?? 'ice']
}

/** Drawn tubes that must be spun, for serum or plasma, and have not been. */
export function toSpin(s: DrawState): readonly string[] {
  return draw
    .specimens(s)
    .filter(
      (tube) =>
        isSpun(draw.planned(s, tube.id)) && !s.spun.includes(tube.id) && !s.sent.includes(tube.id),
    )
    .map((tube) => tube.id)
}
