import type { ToldMoment } from '../order/sitting.ts'
import { limit_ms } from '../policy/policy.ts'
import { dryingNeeded_s } from './antisepticChoice.ts'
import { bandElapsed_ms, bandNeedsRest } from './bandTime.ts'
import { cardIsOn, cardOff, someIsWet } from './card.ts'
import { CARD_RULES } from './cardRules.ts'
import type { DrawEvent } from './events.ts'
import type { RuledCommand } from './commandTable.ts'
import type { ExceptionKind } from './exceptions.ts'
import { momentsOf, momentsOpen } from './decideSeries.ts'
import * as draw from './facts.ts'
import { nextToHandle, type Handled } from './handled.ts'
import {
  answerFainted,
  answerLatex,
  cleanedWith,
  consentBy,
  takePosition,
} from './preparationRules.ts'
import { fact, not, type Rule, type Test } from './rule.ts'
import type { Stamp } from '../time/stamp.ts'
import type { DrawState } from './state.ts'
import { toSpin } from './steps.ts'
import { holdsBlood, SYRINGE_RULES, waitsInSyringe } from './syringe.ts'
import { fellIntact, putOn, setAside, shortBy, slowFlow, tubeOff, tubeOfHand } from './tubeRules.ts'

const always: Test = () => true
const policy_ms = (s: DrawState, key: Parameters<typeof limit_ms>[1]): number =>
  limit_ms(s.opened.policy, key)
const out: Test = (s) => s.puncture.needleOut !== undefined
const needle: Test = (s) => draw.needleIsIn(s)
/** The band goes on again because blood no longer comes through the needle that is in. */
const isTightening: (s: DrawState) => boolean = (s) => draw.needleIsIn(s) && draw.flowFalters(s)

const raise =
  (kind: ExceptionKind) =>
  (s: DrawState): readonly DrawEvent[] => [
    { type: 'exceptionRaised', kind, ...(s.tubeOn ? { tubeId: s.tubeOn } : {}) },
  ]
const raised = (kind: ExceptionKind): Rule => ({
  impossible: [[(s) => draw.exceptionIsOpen(s, kind), 'alreadyDone']],
  records: raise(kind),
})

const handled = (how: Handled): Rule => ({
  impossible: [[(s) => !nextToHandle(s, how), 'nothingToHandle']],
  records: (s) => {
    const tubeId = nextToHandle(s, how)?.id
    return tubeId === undefined ? [] : [{ type: 'tubeHandled', tubeId, how }]
  },
})

/** Told once as it happens; another time is a correction, which says when and why. */
const momentTold = (moment: ToldMoment): Rule => ({
  impossible: [
    [(s) => !momentsOf(s).includes(moment), 'nothingOpen'],
    [(s) => !momentsOpen(s).includes(moment), 'alreadyDone'],
  ],
  records: fact({ type: 'momentNoted', moment }),
})

const takeNeedleOut: Rule = {
  impossible: [[not(needle), 'needleNotIn']],
  flags: [
    [(s) => draw.bandIsOn(s), 'needleOutBandOn'],
    [(s) => draw.tubeIsOn(s), 'needleOutTubeOn'],
  ],
  records: fact({ type: 'needleOut' }),
}

/** The same for what is confirmed with the needle out, where that was not said before. */
const outFlags: Rule['flags'] = (takeNeedleOut.flags ?? []).map(
  ([test, flag]) => [(s, now) => needle(s, now) && test(s, now), flag] as const,
)

/** A button draws the needle of such a set back into its shield while it is in the vein. */
const mayRetract: Test = (s, now) => needle(s, now) && draw.needleSetOf(s).kind === 'winged'

const NEEDLE_FLAGS: Rule['flags'] = [
  [(s) => !draw.identityChecked(s) || s.seen.includes('identityMismatch'), 'identityNotChecked'],
  [(s) => s.consent !== 'given', 'consentNotRecorded'],
  [(s) => draw.drawIsEnding(s) || s.noMore, 'afterStop'],
  [(s) => draw.woundIsOpen(s), 'pressureShort'],
  [(s) => draw.isRestricted(s), 'restrictedArm'],
  [(s) => !s.puncture.cleaned, 'skinNotClean'],
  [(s, now) => !!s.puncture.cleaned && !s.puncture.dry && draw.waited_ms(s.puncture.cleaned, now) < 1000 * dryingNeeded_s(s), 'skinNotDry'],
  [(s) => draw.triesAreUsed(s), 'thirdAttempt'],
] // prettier-ignore

const BEFORE_LANCE: NonNullable<Rule['impossible']> = [
  [needle, 'needleIsIn'],
  [out, 'alreadyDone'],
]

/** A card is put down as its circles are, whatever is said of how full it is. */
const orCard =
  (ofTube: Rule['records']): Rule['records'] =>
  (s, now) =>
    cardIsOn(s) ? cardOff(s) : ofTube(s, now)

/** What every command that needs no decision of its own means for the record. */
// prettier-ignore
export const RULES: Readonly<Record<RuledCommand, Rule>> = {
  confirmPatient: {
    impossible: [[(s) => draw.identityChecked(s), 'alreadyDone']],
    records: () => [{ type: 'identifierChecked', identifier: 'fullName', matches: true }, { type: 'identifierChecked', identifier: 'birthDate', matches: true }],
  },
  refuseIdentity: { ask: [[always, 'refuseIdentity']], impossible: [[(s) => draw.exceptionIsOpen(s, 'identityMismatch'), 'alreadyDone']], records: raise('identityMismatch') },
  confirmConsent: consentBy({ by: 'patient', form: 'spoken' }),
  refuseConsent: { ask: [[always, 'refuseConsent']], impossible: [[(s) => s.consent === 'refused', 'alreadyDone']], records: fact({ type: 'consentRefused' }) },
  withdrawConsent: raised('consentWithdrawn'),
  confirmPreparation: { impossible: [[(s) => draw.prepared(s) || s.preparation === 'stop', 'alreadyDone'], [(s) => s.preparation === 'notPrepared', 'notDecided']], records: fact({ type: 'preparationChecked' }) },
  confirmSupplies: { impossible: [[(s) => s.supplies, 'alreadyDone']], records: fact({ type: 'suppliesChecked' }) },
  confirmHands: { impossible: [[(s) => s.hands, 'alreadyDone']], records: fact({ type: 'handsReady' }) },

  seated: takePosition('seated'),
  lyingDown: takePosition('lying'),
  bandOn: {
    impossible: [[(s) => draw.bandIsOn(s), 'bandIsOn']],
    flags: [
      [(s, now) => bandNeedsRest(s) && !isTightening(s) && draw.waited_ms(draw.lastBandHere(s)?.off, now) < policy_ms(s, 'bandRest_s'), 'bandBeforeRest'],
      [(s) => draw.isRestricted(s), 'restrictedArm'],
    ],
    records: fact({ type: 'bandOn' }),
  },
  bandOff: {
    impossible: [[(s) => !draw.bandIsOn(s), 'bandIsOff']],
    flags: [[(s, now) => bandElapsed_ms(s, now) > policy_ms(s, 'bandLimit_s'), 'bandOverLimit']],
    records: fact({ type: 'bandOff' }),
  },
  skinClean: cleanedWith(undefined),
  latexNo: answerLatex(false),
  latexYes: answerLatex(true),
  faintedNo: answerFainted(false),
  faintedYes: answerFainted(true),
  skinDry: {
    impossible: [[(s) => !s.puncture.cleaned, 'notCleaned'], [(s) => !!s.puncture.dry, 'alreadyDone'], [needle, 'needleIsIn']],
    flags: [[(s, now) => draw.waited_ms(s.puncture.cleaned, now) < 1000 * dryingNeeded_s(s), 'skinNotDry']],
    records: fact({ type: 'skinDry' }),
  },
  needleIn: {
    impossible: [[needle, 'needleIsIn']],
    flags: NEEDLE_FLAGS,
    records: (s) => [
      ...(s.puncture.needleOut ? [{ type: 'punctureBegun' as const, number: s.puncture.number + 1 }] : []),
      { type: 'needleIn', attempt: draw.attemptsInAll(s) + 1 },
    ],
  },
  flashSeen: { impossible: [[not(needle), 'needleNotIn'], [(s) => !!s.puncture.flash, 'alreadyDone']], records: fact({ type: 'flashSeen' }) },
  noFlash: { impossible: [[not(needle), 'needleNotIn'], [(s) => draw.exceptionIsOpen(s, 'noFlash'), 'alreadyDone']], records: raise('noFlash') },
  veinRolled: { impossible: [[not(needle), 'needleNotIn'], [(s) => draw.exceptionIsOpen(s, 'veinRolled'), 'alreadyDone']], records: raise('veinRolled') },

  tubeOn: putOn(undefined),
  tubeFull: { impossible: [[(s) => !draw.tubeIsOn(s), 'noTubeOn']], records: orCard(tubeOff('full')) },
  tubeShort: { ...shortBy(undefined), records: orCard(shortBy(undefined).records) },
  tubeEmpty: { ...shortBy(0), records: orCard(shortBy(0).records) },
  tubeMixed: {
    impossible: [[(s) => draw.unmixed(s).length === 0, 'nothingToMix']],
    flags: [[(s, now) => draw.waited_ms(draw.unmixed(s)[0]?.off, now) > policy_ms(s, 'mixLate_s'), 'mixedLate']],
    records: (s) => draw.unmixed(s).slice(0, 1).map(({ id }) => ({ type: 'tubeMixed', tubeId: id })),
  },
  onIce: handled('ice'),
  keptWarm: handled('warm'),
  keptDark: handled('light'),
  laidFlat: handled('dryFlat'),
  lastTube: {
    impossible: [[(s) => draw.tubeIsOn(s), 'tubeIsOn'], [(s) => !draw.needleIsIn(s) && !holdsBlood(s), 'needleNotIn'], [(s) => !!s.puncture.lastTubeOff, 'alreadyDone']],
    ask: [[(s) => draw.waitingTubes(s).length > 0, 'tubesLeft']],
    records: fact({ type: 'lastTubeOff' }),
  },
  slowFlow,
  flowLost: { impossible: [[not(needle), 'needleNotIn'], [(s) => draw.exceptionIsOpen(s, 'flowLost'), 'alreadyDone']], records: raise('flowLost') },
  flowRestored: { impossible: [[(s) => !(['flowLost', 'slowFlow', 'slowPull', 'veinRolled'] as const).some((kind) => draw.exceptionIsOpen(s, kind)), 'nothingOpen']], records: () => [] },
  noVacuum: { impossible: [[(s) => !draw.tubeIsOn(s), 'noTubeOn']], records: setAside('noVacuum') },
  wrongTube: tubeOfHand('wrongTube'),
  expiredTube: tubeOfHand('expiredTube'),
  droppedTube: { impossible: [[(s) => !draw.tubeIsOn(s) && !draw.lastDrawn(s), 'noSpecimens']], records: setAside('droppedTube') },
  tubeIntact: fellIntact,
  fistSeen: { records: fact({ type: 'fistNoted' }) },

  needleOut: takeNeedleOut,
  pressureOn: {
    impossible: [[(s) => !s.puncture.needleIn, 'needleNotIn'], [(s) => !!s.puncture.pressureOn && !s.puncture.bleedingStopped, 'alreadyDone']],
    flags: outFlags.map(([test, flag]) => [(s: DrawState, now: Stamp) => !draw.isCapillary(s) && test(s, now), flag] as const),
    records: (s) => [...(draw.needleIsIn(s) && !draw.isCapillary(s) ? [{ type: 'needleOut' as const }] : []), { type: 'pressureOn' }],
  },
  shieldClicked: {
    impossible: [[(s, now) => !out(s, now) && !mayRetract(s, now), 'needleNotOut'], [(s) => !!s.puncture.shield, 'alreadyDone']],
    flags: outFlags,
    records: (s) => [...(draw.needleIsIn(s) ? [{ type: 'needleOut' as const }] : []), { type: 'shieldClicked' }],
  },
  // A lancet is put away while the drops are collected.
  sharpsDone: {
    impossible: [[(s, now) => (draw.isCapillary(s) ? !s.puncture.needleIn : !out(s, now)), 'needleNotOut'], [(s) => !!s.puncture.sharps, 'alreadyDone']],
    ask: [[(s) => waitsInSyringe(s) && !draw.severeIsOpen(s), 'tubesLeft']],
    flags: [[(s) => !draw.isCapillary(s) && !s.puncture.shield, 'shieldNotClicked']],
    records: fact({ type: 'sharpsDone' }),
  },
  bleedingStopped: {
    impossible: [[not(out), 'needleNotOut'], [(s) => !!s.puncture.bleedingStopped, 'alreadyDone']],
    flags: [[(s, now) => draw.waited_ms(s.puncture.pressureOn, now) < 1000 * draw.pressureNeeded_s(s), 'pressureShort']],
    records: fact({ type: 'bleedingStopped' }),
  },
  bleedingContinues: { impossible: [[not(out), 'needleNotOut']], records: (s) => [...raise('bleedingContinues')(s), { type: 'pressureOn' }] },
  bandageOn: {
    impossible: [[not(out), 'needleNotOut'], [(s) => !!s.puncture.bandage, 'alreadyDone']],
    flags: [
      [(s, now) => !draw.isCapillary(s) && draw.waited_ms(s.puncture.bleedingStopped, now) < policy_ms(s, 'siteWatch_s'), 'siteNotWatched'],
      [(s) => draw.tooYoungForBandage(s), 'bandageTooYoung'],
    ],
    records: fact({ type: 'bandageOn' }),
  },
  labelsDone: {
    impossible: [[(s) => !draw.anyBlood(s), 'noSpecimens'], [(s) => draw.unlabelledIsOpen(s), 'unlabelledOpen'], [(s) => !!s.labelsDone, 'alreadyDone'], [(s) => s.colleagueTook !== undefined, 'colleagueUnnamed']],
    flags: [
      [(s) => draw.unread(s).length > 0, 'labelsNotReadBack'],
      [(s, now) => draw.waited_ms(s.puncture.bandage, now) > policy_ms(s, 'labelWait_min'), 'labelsLate'],
    ],
    records: fact({ type: 'labelsDone' }),
  },
  unlabelledTube: {
    impossible: [[(s) => !draw.anyBlood(s), 'noSpecimens'], [(s) => draw.exceptionIsOpen(s, 'unlabelledTube'), 'alreadyDone']],
    records: fact({ type: 'exceptionRaised', kind: 'unlabelledTube' }),
  },
  glovesOff: {
    impossible: [[(s) => draw.attemptsInAll(s) === 0, 'notPausedNow'], [(s) => !draw.bodyIsSafe(s), 'notSafeYet'], [(s) => !!s.handsAfter, 'alreadyDone']],
    records: fact({ type: 'handsCleaned' }),
  },
  aftercareTold: { impossible: [[(s) => !!s.aftercare, 'alreadyDone']], records: (s) => [{ type: 'aftercareTold', ...(s.patientLanguage && { language: s.patientLanguage }) }] },
  spinStarted: {
    impossible: [[(s) => toSpin(s).length === 0, 'nothingToSpin']],
    flags: [[(s, now) => toSpin(s).some((id) => draw.waited_ms(s.tubes.find((tube) => tube.id === id)?.off, now) < 60_000 * (draw.planned(s, id)?.clot_min ?? 0)), 'spunEarly']],
    records: (s) => [{ type: 'spinStarted', tubeIds: toSpin(s) }],
  },
  drinkStarted: momentTold('drinkStarted'),
  drinkFinished: momentTold('drinkFinished'),
  doseGiven: momentTold('doseGiven'),
  infusionEnded: momentTold('infusionEnded'),
  courierTook: { impossible: [[(s) => !draw.anyBlood(s), 'noSpecimens'], [(s) => !!s.courier, 'alreadyDone'], [(s) => !s.closed, 'notClosed']], flags: [[someIsWet, 'cardWet']], records: fact({ type: 'courierTook' }) },

  warmOn: { impossible: [...BEFORE_LANCE, [(s) => !!s.puncture.warming || !!s.puncture.warm, 'alreadyDone']], records: fact({ type: 'warmOn' }) },
  siteWarm: { impossible: [...BEFORE_LANCE, [(s) => !!s.puncture.warm, 'alreadyDone']], records: fact({ type: 'siteWarm' }) },
  lanced: {
    impossible: [[needle, 'needleIsIn']],
    flags: [...NEEDLE_FLAGS, [(s) => draw.mayBeSamePlace(s), 'samePlace']],
    records: (s) => [
      ...(s.puncture.needleOut ? [{ type: 'punctureBegun' as const, number: s.puncture.number + 1 }] : []),
      { type: 'lanced', attempt: draw.attemptsInAll(s) + 1 },
    ],
  },
  dropWiped: { impossible: [[not(needle), 'needleNotIn'], [(s) => !!s.puncture.wiped, 'alreadyDone']], records: fact({ type: 'dropWiped' }) },
  squeezed: { impossible: [[not(needle), 'needleNotIn']], records: fact({ type: 'squeezeNoted' }) },
  ...CARD_RULES,
  ...SYRINGE_RULES,
  slowDrops: { impossible: [[not(needle), 'needleNotIn'], [(s) => draw.exceptionIsOpen(s, 'slowDrops'), 'alreadyDone']], records: raise('slowDrops') },

  swelling: raised('swelling'),
  brightBlood: raised('brightBlood'),
  sharpPain: raised('sharpPain'),
  faint: raised('faint'),
  nausea: raised('nausea'),
  needlestick: raised('needlestick'),
  stopEverything: raised('stopEverything'),
  interrupted: raised('interrupted'),
  resumeDraw: { impossible: [[(s) => !draw.exceptionIsOpen(s, 'interrupted'), 'nothingOpen']], records: () => [] },
  colleagueHere: { impossible: [[(s) => !draw.exceptionIsOpen(s, 'needlestick'), 'nothingOpen']], records: fact({ type: 'colleagueTook' }) },
  tryAgain: {
    impossible: [
      [(s) => s.colleagueTook !== undefined, 'colleagueUnnamed'],
      [(s) => !draw.bodyIsSafe(s), 'notSafeYet'],
      [(s) => draw.sharpIsLoose(s), 'sharpOpen'],
      [(s) => draw.woundIsOpen(s), 'stillBleeding'],
      [(s) => draw.severeIsOpen(s), 'severeOpen'],
      [(s) => draw.drawIsEnding(s) || s.noMore || s.closed !== undefined, 'noFurtherPuncture'],
      [(s) => draw.waitingTubes(s).length === 0, 'noTubeLeft'],
      [(s) => !s.puncture.needleIn && !s.puncture.ending, 'notPausedNow'],
      [(s) => draw.wasPricked(s), 'colleagueUnnamed'],
      [(s) => !draw.mayTryAgain(s), 'twoAttempts'],
    ],
    // A faint ends the collection there and then (laboratory continuing education pages); whether there is another, a
    // person decides who knows how the patient is.
    ask: [[(s) => s.seen.includes('faint'), 'afterFaint']],
    records: (s) => [{ type: 'punctureBegun', number: s.puncture.number + 1 }],
  },
  sameSet: {
    impossible: [[needle, 'needleIsIn'], [out, 'alreadyDone'], [(s) => !!s.puncture.needleSet, 'alreadyDone']],
    records: (s) => [{ type: 'needleSetChosen', set: draw.needleSetOf(s) }],
  },
}
