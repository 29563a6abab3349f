import { defined } from '../basics/defined.ts'
import { limit, limit_ms } from '../policy/policy.ts'
import type { Stamp } from '../time/stamp.ts'
import { antisepticFor, dryingNeeded_s, isUnfit } from './antisepticChoice.ts'
import type { Antiseptic } from './antiseptics.ts'
import type { Ask } from './asks.ts'
import { bandElapsed_ms, bandNeedsRest } from './bandTime.ts'
import type { Fill } from '../plan/plan.ts'
import type { DrawEvent, Flag, Position, SetAside } from './events.ts'
import type { RuledCommand } from './commandTable.ts'
import type { ExceptionKind } from './exceptions.ts'
import * as draw from './facts.ts'
import { overLimit } from './bloodTaken.ts'
import type { Impossible } from './impossible.ts'
import { nextToHandle, type Handled } from './handled.ts'
import { redrawnNumber } from './specimenNumber.ts'
import type { DrawState } from './state.ts'
import { toSpin } from './steps.ts'

type Test = (s: DrawState, now: Stamp) => boolean

/** One command: when it cannot be true, what is flagged with it, whether it is asked twice, and what it records. */
export interface Rule {
  readonly impossible?: readonly (readonly [Test, Impossible])[]
  readonly flags?: readonly (readonly [Test, Flag])[]
  readonly ask?: readonly (readonly [Test, Ask])[]
  readonly records: (s: DrawState, now: Stamp) => readonly DrawEvent[]
}

const not =
  (test: Test): Test =>
  (s, now) =>
    !test(s, now)
const always: Test = () => true
const fact = (event: DrawEvent) => () => [event]
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

/** A tube is set aside: the one on the holder, else the next, else (dropped) the one that came off last. */
const setAside =
  (why: SetAside) =>
  (s: DrawState): readonly DrawEvent[] => {
    const last = why === 'droppedTube' ? draw.lastDrawn(s)?.id : draw.nextTube(s)?.id
    const tubeId = s.tubeOn ?? last
    if (tubeId === undefined) return []
    return [{ type: 'exceptionRaised', kind: why, tubeId }, tubeLost(s, why, tubeId)]
  }

/**
 * The named tube goes back to waiting, and another of its kind is needed. Once a tube was on, its number may stand on a
 * label: the one drawn in its place gets another.
 */
export const tubeLost = (s: DrawState, why: SetAside, tubeId: string): DrawEvent => {
  const wasOn = s.tubes.some(({ id, on }) => id === tubeId && on !== undefined)
  const redrawnAs = wasOn ? redrawnNumber(s.redrawnGiven) : undefined
  return defined({ type: 'tubeSwapped' as const, tubeId, why, redrawnAs })
}

const handled = (how: Handled): Rule => ({
  impossible: [[(s) => !nextToHandle(s, how), 'nothingToHandle']],
  records: (s) => {
    const tubeId = nextToHandle(s, how)?.id
    return tubeId === undefined ? [] : [{ type: 'tubeHandled', tubeId, how }]
  },
})

/** A closed tube that fell and is whole is mixed and noted; only a broken or leaking one is drawn again. */
const fellIntact: Rule = {
  impossible: [[(s) => !draw.tubeIsOn(s) && !draw.lastDrawn(s), 'noSpecimens']],
  records: (s) => {
    const tubeId = s.tubeOn ?? draw.lastDrawn(s)?.id
    return tubeId === undefined ? [] : [{ type: 'tubeFell', tubeId }]
  },
}

const takeNeedleOut: Rule = {
  impossible: [[not(needle), 'needleNotIn']],
  flags: [
    [(s) => draw.bandIsOn(s), 'needleOutBandOn'],
    [(s) => draw.tubeIsOn(s), 'needleOutTubeOn'],
  ],
  records: fact({ type: 'needleOut' }),
}

const NEEDLE_FLAGS: Rule['flags'] = [
  [(s) => !draw.identityChecked(s) || s.seen.includes('identityMismatch'), 'identityNotChecked'],
  [(s) => s.consent !== 'given', 'consentNotRecorded'],
  [(s) => draw.drawIsEnding(s) || s.noMore, 'afterStop'],
  [(s) => draw.woundIsOpen(s), 'pressureShort'],
  [(s) => draw.isRestricted(s), 'restrictedArm'],
  [(s) => !s.puncture.cleaned, 'skinNotClean'],
  [(s, now) => !!s.puncture.cleaned && !s.puncture.dry && draw.waited_ms(s.puncture.cleaned, now) < 1000 * dryingNeeded_s(s), 'skinNotDry'],
  [(s) => draw.attemptsBy(s, s.collector.id) >= limit(s.opened.policy, 'attemptsPerPerson_n'), 'thirdAttempt'],
] // prettier-ignore

const tubeOff = (fill: Fill, estimate_mL?: number) => (s: DrawState): readonly DrawEvent[] =>
  s.tubeOn === undefined
    ? []
    : [
        { type: 'tubeOff', tubeId: s.tubeOn, fill, ...(estimate_mL === undefined ? {} : { estimate_mL }) },
        ...(fill === 'short' ? [{ type: 'exceptionRaised' as const, kind: 'shortFill' as const, tubeId: s.tubeOn }] : []),
      ] // prettier-ignore

export const shortBy = (estimate_mL: number | undefined): Rule => ({
  impossible: [[(s) => !draw.tubeIsOn(s), 'noTubeOn']],
  // No blood at all: nothing to label, and the tube is still wanted.
  records: estimate_mL === 0 ? tubeOff('empty', 0) : tubeOff('short', estimate_mL),
})

/** Puts a tube on. Taking another than the next is recorded and flagged. */
export const putOn = (tubeId: string | undefined): Rule => ({
  impossible: [
    [not(needle), 'needleNotIn'],
    [(s) => draw.tubeIsOn(s), 'tubeIsOn'],
    [(s) => !draw.waitingTubes(s).some((tube) => tubeId === undefined || tube.id === tubeId), 'noTubeLeft'],
  ],
  ask: [[(s) => overLimit(s, tubeId ?? draw.nextTube(s)?.id), 'overLimit']],
  flags: [
    [(s) => tubeId !== undefined && draw.nextTube(s)?.id !== tubeId, 'wrongOrder'],
    [(s) => overLimit(s, tubeId ?? draw.nextTube(s)?.id), 'overBloodLimit'],
  ],
  records: (s) => {
    const id = tubeId ?? draw.nextTube(s)?.id
    return id === undefined ? [] : [{ type: 'tubeOn', tubeId: id }]
  },
}) // prettier-ignore

/** The skin was cleaned; with what the screen shows, where nobody names another. */
export function cleanedWith(named: Antiseptic | undefined): Rule {
  return {
    impossible: [
      [needle, 'needleIsIn'],
      [out, 'alreadyDone'],
    ],
    flags: [[(s) => isUnfit(s, named ?? antisepticFor(s)), 'wrongAntiseptic']],
    records: (s) => [{ type: 'skinCleaned', with: named ?? antisepticFor(s) }],
  }
}

function takePosition(position: Position): Rule {
  return {
    impossible: [[(s) => s.position === position, 'alreadyDone']],
    records: fact({ type: 'positionTaken', position }),
  }
}

function answerLatex(latexAllergy: boolean): Rule {
  return {
    impossible: [[(s) => draw.answersOf(s).latexAllergy === latexAllergy, 'alreadyDone']],
    records: fact({ type: 'answerTaken', answer: { latexAllergy } }),
  }
}

/** What every command that needs no decision of its own means for the record. */
// prettier-ignore
export const RULES: Readonly<Record<RuledCommand, Rule>> = {
  confirmPatient: {
    impossible: [[(s) => draw.identityChecked(s), 'alreadyDone']],
    records: () => [{ type: 'identifierChecked', identifier: 'fullName', matches: true }, { type: 'identifierChecked', identifier: 'birthDate', matches: true }],
  },
  refuseIdentity: { ask: [[always, 'refuseIdentity']], impossible: [[(s) => draw.exceptionIsOpen(s, 'identityMismatch'), 'alreadyDone']], records: raise('identityMismatch') },
  confirmConsent: { impossible: [[(s) => s.consent === 'given', 'alreadyDone']], records: fact({ type: 'consentGiven' }) },
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
  tubeFull: { impossible: [[(s) => !draw.tubeIsOn(s), 'noTubeOn']], records: tubeOff('full') },
  tubeShort: shortBy(undefined),
  tubeMixed: {
    impossible: [[(s) => draw.unmixed(s).length === 0, 'nothingToMix']],
    flags: [[(s, now) => draw.waited_ms(draw.unmixed(s)[0]?.off, now) > policy_ms(s, 'mixLate_s'), 'mixedLate']],
    records: (s) => draw.unmixed(s).slice(0, 1).map(({ id }) => ({ type: 'tubeMixed', tubeId: id })),
  },
  onIce: handled('ice'),
  keptWarm: handled('warm'),
  keptDark: handled('light'),
  lastTube: {
    impossible: [[(s) => draw.tubeIsOn(s), 'tubeIsOn'], [not(needle), 'needleNotIn'], [(s) => !!s.puncture.lastTubeOff, 'alreadyDone']],
    ask: [[(s) => draw.waitingTubes(s).length > 0, 'tubesLeft']],
    records: fact({ type: 'lastTubeOff' }),
  },
  slowFlow: { impossible: [[(s) => !draw.tubeIsOn(s), 'noTubeOn'], [(s) => s.exceptions.some(({ kind, noticed }) => kind === 'slowFlow' && !noticed), 'alreadyDone']], records: raise('slowFlow') },
  flowLost: { impossible: [[not(needle), 'needleNotIn'], [(s) => draw.exceptionIsOpen(s, 'flowLost'), 'alreadyDone']], records: raise('flowLost') },
  flowRestored: { impossible: [[(s) => !(['flowLost', 'slowFlow', 'veinRolled'] as const).some((kind) => draw.exceptionIsOpen(s, kind)), 'nothingOpen']], records: () => [] },
  noVacuum: { impossible: [[(s) => !draw.tubeIsOn(s), 'noTubeOn']], records: setAside('noVacuum') },
  wrongTube: { impossible: [[(s) => !draw.tubeIsOn(s) && !draw.nextTube(s), 'noTubeLeft']], records: setAside('wrongTube') },
  expiredTube: { impossible: [[(s) => !draw.tubeIsOn(s) && !draw.nextTube(s), 'noTubeLeft']], records: setAside('expiredTube') },
  droppedTube: { impossible: [[(s) => !draw.tubeIsOn(s) && !draw.lastDrawn(s), 'noSpecimens']], records: setAside('droppedTube') },
  tubeIntact: fellIntact,
  fistSeen: { records: fact({ type: 'fistNoted' }) },

  needleOut: takeNeedleOut,
  pressureOn: {
    impossible: [[(s) => !s.puncture.needleIn, 'needleNotIn'], [(s) => !!s.puncture.pressureOn && !s.puncture.bleedingStopped, 'alreadyDone']],
    flags: (takeNeedleOut.flags ?? []).map(([test, flag]) => [(s: DrawState, now: Stamp) => needle(s, now) && test(s, now), flag] as const),
    records: (s) => [...(draw.needleIsIn(s) ? [{ type: 'needleOut' as const }] : []), { type: 'pressureOn' }],
  },
  shieldClicked: { impossible: [[not(out), 'needleNotOut'], [(s) => !!s.puncture.shield, 'alreadyDone']], records: fact({ type: 'shieldClicked' }) },
  sharpsDone: {
    impossible: [[not(out), 'needleNotOut'], [(s) => !!s.puncture.sharps, 'alreadyDone']],
    flags: [[(s) => !s.puncture.shield, 'shieldNotClicked']],
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
    flags: [[(s, now) => draw.waited_ms(s.puncture.bleedingStopped, now) < policy_ms(s, 'siteWatch_s'), 'siteNotWatched']],
    records: fact({ type: 'bandageOn' }),
  },
  labelsDone: {
    impossible: [[(s) => !draw.anyBlood(s), 'noSpecimens'], [(s) => draw.unlabelledIsOpen(s), 'unlabelledOpen'], [(s) => !!s.labelsDone, 'alreadyDone']],
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
  aftercareTold: { impossible: [[(s) => !!s.aftercare, 'alreadyDone']], records: fact({ type: 'aftercareTold' }) },
  spinStarted: {
    impossible: [[(s) => toSpin(s).length === 0, 'nothingToSpin']],
    flags: [[(s, now) => toSpin(s).some((id) => draw.waited_ms(s.tubes.find((tube) => tube.id === id)?.off, now) < 60_000 * (draw.planned(s, id)?.clot_min ?? 0)), 'spunEarly']],
    records: (s) => [{ type: 'spinStarted', tubeIds: toSpin(s) }],
  },
  courierTook: { impossible: [[(s) => !draw.anyBlood(s), 'noSpecimens'], [(s) => !!s.courier, 'alreadyDone'], [(s) => !s.closed, 'notClosed']], records: fact({ type: 'courierTook' }) },

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
