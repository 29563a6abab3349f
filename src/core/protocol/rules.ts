import { limit_ms } from '../policy/policy.ts'
import type { Stamp } from '../time/stamp.ts'
import { bandElapsed_ms } from './bandTime.ts'
import type { DrawEvent, Flag } from './events.ts'
import type { PlainCommand } from './commands.ts'
import type { ExceptionKind } from './exceptions.ts'
import * as is from './facts.ts'
import type { DrawState } from './state.ts'
import { toSpin } from './steps.ts'

/** Why a confirmation cannot be about anything that happened; the words for each are in the words data file. */
export const SENSELESS = [
  'alreadyDone', 'bandIsOn', 'bandIsOff', 'needleIsIn', 'needleNotIn', 'needleNotOut', 'tubeIsOn', 'noTubeOn', 'noTubeLeft',
  'nothingToMix', 'notCleaned', 'noSpecimens', 'allReadBack', 'nothingToSpin', 'nothingOpen', 'notSafeYet', 'twoAttempts',
  'noFurtherPuncture', 'stillBleeding', 'identityOpen', 'specimensOpen', 'closed', 'notClosed', 'notPausedNow', 'unknownLabel', 'nothingToUndo', 'notDecided',
  'bandOnOtherArm', 'sharpOpen', 'severeOpen',
] as const // prettier-ignore
export type Senseless = (typeof SENSELESS)[number]

/** Questions asked before a command that is hard to take back is carried out. */
export const ASKS = ['endDraw', 'refuseConsent', 'refuseIdentity', 'tubesLeft'] as const
export type Ask = (typeof ASKS)[number]

type Test = (s: DrawState, now: Stamp) => boolean

/** One command: when it cannot be true, what is flagged with it, whether it is asked twice, and what it records. */
export interface Rule {
  readonly senseless?: readonly (readonly [Test, Senseless])[]
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
  s.opened ? limit_ms(s.opened.policy, key) : 0
const out: Test = (s) => s.puncture.needleOut !== undefined
const needle: Test = (s) => is.needleIsIn(s)

const raise =
  (kind: ExceptionKind) =>
  (s: DrawState): readonly DrawEvent[] => [
    { type: 'exceptionRaised', kind, ...(s.tubeOn ? { tubeId: s.tubeOn } : {}) },
  ]
const raised = (kind: ExceptionKind): Rule => ({
  senseless: [[(s) => is.exceptionIsOpen(s, kind), 'alreadyDone']],
  records: raise(kind),
})

/** Ways of losing a tube. */
export const SET_ASIDE = ['wrongTube', 'expiredTube', 'noVacuum', 'droppedTube'] as const
export type SetAside = (typeof SET_ASIDE)[number]

/** A tube is set aside: the one on the holder, else the next, else (dropped) the one that came off last. */
const setAside =
  (why: SetAside) =>
  (s: DrawState): readonly DrawEvent[] => {
    const last = why === 'droppedTube' ? is.lastDrawn(s)?.id : is.nextTube(s)?.id
    const tubeId = s.tubeOn ?? last
    return tubeId === undefined ? [] : tubeLost(why, tubeId)
  }

/** The named tube goes back to waiting, and another of its kind is needed. */
export const tubeLost = (why: SetAside, tubeId: string): readonly DrawEvent[] => [
  { type: 'exceptionRaised', kind: why, tubeId },
  { type: 'tubeSwapped', tubeId, why },
]

const takeNeedleOut: Rule = {
  senseless: [[not(needle), 'needleNotIn']],
  flags: [
    [(s) => is.bandIsOn(s), 'needleOutBandOn'],
    [(s) => is.tubeIsOn(s), 'needleOutTubeOn'],
  ],
  records: fact({ type: 'needleOut' }),
}

const NEEDLE_FLAGS: Rule['flags'] = [
  [(s) => !is.identityChecked(s) || s.seen.includes('identityMismatch'), 'identityNotChecked'],
  [(s) => s.consent !== 'given', 'consentNotRecorded'],
  [(s) => is.drawIsEnding(s) || s.noMore, 'afterStop'],
  [(s) => is.woundIsOpen(s), 'pressureShort'],
  [(s) => is.isRestricted(s), 'restrictedArm'],
  [(s) => !s.puncture.cleaned, 'skinNotClean'],
  [(s, now) => !!s.puncture.cleaned && !s.puncture.dry && is.waited_ms(s.puncture.cleaned, now) < policy_ms(s, 'drying_s'), 'skinNotDry'],
  [(s) => is.attemptsBy(s, s.collector?.id ?? '') >= (s.opened?.policy.limits.attemptsPerPerson_n.value ?? 2), 'thirdAttempt'],
] // prettier-ignore

const tubeOff = (fill: 'full' | 'short' | 'empty', estimate_mL?: number) => (s: DrawState): readonly DrawEvent[] =>
  s.tubeOn === undefined
    ? []
    : [
        { type: 'tubeOff', tubeId: s.tubeOn, fill, ...(estimate_mL === undefined ? {} : { estimate_mL }) },
        ...(fill === 'short' ? [{ type: 'exceptionRaised' as const, kind: 'shortFill' as const, tubeId: s.tubeOn }] : []),
      ] // prettier-ignore

export const shortBy = (estimate_mL: number | undefined): Rule => ({
  senseless: [[(s) => !is.tubeIsOn(s), 'noTubeOn']],
  // No blood at all: nothing to label, and the tube is still wanted.
  records: estimate_mL === 0 ? tubeOff('empty', 0) : tubeOff('short', estimate_mL),
})

/** Puts a tube on. Taking another than the next is recorded and flagged. */
export const putOn = (tubeId: string | undefined): Rule => ({
  senseless: [
    [not(needle), 'needleNotIn'],
    [(s) => is.tubeIsOn(s), 'tubeIsOn'],
    [(s) => !is.waitingTubes(s).some((tube) => tubeId === undefined || tube.id === tubeId), 'noTubeLeft'],
  ],
  flags: [[(s) => tubeId !== undefined && is.nextTube(s)?.id !== tubeId, 'wrongOrder']],
  records: (s) => {
    const id = tubeId ?? is.nextTube(s)?.id
    return id === undefined ? [] : [{ type: 'tubeOn', tubeId: id }]
  },
}) // prettier-ignore

/** What every plain command means for the record. Commands that only steer the app are not here. */
// prettier-ignore
export const RULES: Readonly<Partial<Record<PlainCommand, Rule>>> = {
  confirmPatient: {
    senseless: [[(s) => is.identityChecked(s), 'alreadyDone']],
    records: () => [{ type: 'identifierChecked', identifier: 'fullName', matches: true }, { type: 'identifierChecked', identifier: 'birthDate', matches: true }],
  },
  refuseIdentity: { ask: [[always, 'refuseIdentity']], senseless: [[(s) => is.exceptionIsOpen(s, 'identityMismatch'), 'alreadyDone']], records: raise('identityMismatch') },
  confirmConsent: { senseless: [[(s) => s.consent === 'given', 'alreadyDone']], records: fact({ type: 'consentGiven' }) },
  refuseConsent: { ask: [[always, 'refuseConsent']], senseless: [[(s) => s.consent === 'refused', 'alreadyDone']], records: fact({ type: 'consentRefused' }) },
  withdrawConsent: raised('consentWithdrawn'),
  confirmPreparation: { senseless: [[(s) => is.prepared(s) || s.preparation === 'stop', 'alreadyDone'], [(s) => s.preparation === 'notPrepared', 'notDecided']], records: fact({ type: 'preparationChecked' }) },
  confirmSupplies: { senseless: [[(s) => s.supplies, 'alreadyDone']], records: fact({ type: 'suppliesChecked' }) },
  confirmHands: { senseless: [[(s) => s.hands, 'alreadyDone']], records: fact({ type: 'handsReady' }) },

  bandOn: {
    senseless: [[(s) => is.bandIsOn(s), 'bandIsOn']],
    flags: [
      [(s, now) => is.lastBandHere(s) !== undefined && is.waited_ms(is.lastBandHere(s)?.off, now) < policy_ms(s, 'bandRest_s'), 'bandBeforeRest'],
      [(s) => is.isRestricted(s), 'restrictedArm'],
    ],
    records: fact({ type: 'bandOn' }),
  },
  bandOff: {
    senseless: [[(s) => !is.bandIsOn(s), 'bandIsOff']],
    flags: [[(s, now) => bandElapsed_ms(s, now) > policy_ms(s, 'bandLimit_s'), 'bandOverLimit']],
    records: fact({ type: 'bandOff' }),
  },
  skinClean: { senseless: [[needle, 'needleIsIn'], [out, 'alreadyDone']], records: fact({ type: 'skinCleaned' }) },
  skinDry: {
    senseless: [[(s) => !s.puncture.cleaned, 'notCleaned'], [(s) => !!s.puncture.dry, 'alreadyDone'], [needle, 'needleIsIn']],
    flags: [[(s, now) => is.waited_ms(s.puncture.cleaned, now) < policy_ms(s, 'drying_s'), 'skinNotDry']],
    records: fact({ type: 'skinDry' }),
  },
  needleIn: {
    senseless: [[needle, 'needleIsIn']],
    flags: NEEDLE_FLAGS,
    records: (s) => [
      ...(s.puncture.needleOut ? [{ type: 'punctureBegun' as const, number: s.puncture.number + 1 }] : []),
      { type: 'needleIn', attempt: is.attemptsInAll(s) + 1 },
    ],
  },
  flashSeen: { senseless: [[not(needle), 'needleNotIn'], [(s) => !!s.puncture.flash, 'alreadyDone']], records: fact({ type: 'flashSeen' }) },
  noFlash: { senseless: [[not(needle), 'needleNotIn'], [(s) => is.exceptionIsOpen(s, 'noFlash'), 'alreadyDone']], records: raise('noFlash') },
  veinRolled: { senseless: [[not(needle), 'needleNotIn'], [(s) => is.exceptionIsOpen(s, 'veinRolled'), 'alreadyDone']], records: raise('veinRolled') },

  tubeOn: putOn(undefined),
  tubeFull: { senseless: [[(s) => !is.tubeIsOn(s), 'noTubeOn']], records: tubeOff('full') },
  tubeShort: shortBy(undefined),
  tubeMixed: {
    senseless: [[(s) => is.unmixed(s).length === 0, 'nothingToMix']],
    flags: [[(s, now) => is.waited_ms(is.unmixed(s)[0]?.off, now) > policy_ms(s, 'mixLate_s'), 'mixedLate']],
    records: (s) => is.unmixed(s).slice(0, 1).map(({ id }) => ({ type: 'tubeMixed', tubeId: id })),
  },
  lastTube: {
    senseless: [[(s) => is.tubeIsOn(s), 'tubeIsOn'], [not(needle), 'needleNotIn'], [(s) => !!s.puncture.lastTubeOff, 'alreadyDone']],
    ask: [[(s) => is.waitingTubes(s).length > 0, 'tubesLeft']],
    records: fact({ type: 'lastTubeOff' }),
  },
  slowFlow: { senseless: [[(s) => !is.tubeIsOn(s), 'noTubeOn'], [(s) => is.exceptionIsOpen(s, 'slowFlow'), 'alreadyDone']], records: raise('slowFlow') },
  flowLost: { senseless: [[not(needle), 'needleNotIn'], [(s) => is.exceptionIsOpen(s, 'flowLost'), 'alreadyDone']], records: raise('flowLost') },
  flowRestored: { senseless: [[(s) => !(['flowLost', 'slowFlow', 'veinRolled'] as const).some((kind) => is.exceptionIsOpen(s, kind)), 'nothingOpen']], records: () => [] },
  noVacuum: { senseless: [[(s) => !is.tubeIsOn(s), 'noTubeOn']], records: setAside('noVacuum') },
  wrongTube: { senseless: [[(s) => !is.tubeIsOn(s) && !is.nextTube(s), 'noTubeLeft']], records: setAside('wrongTube') },
  expiredTube: { senseless: [[(s) => !is.tubeIsOn(s) && !is.nextTube(s), 'noTubeLeft']], records: setAside('expiredTube') },
  droppedTube: { senseless: [[(s) => !is.tubeIsOn(s) && !is.lastDrawn(s), 'noSpecimens']], records: setAside('droppedTube') },
  fistSeen: { records: fact({ type: 'fistNoted' }) },

  needleOut: takeNeedleOut,
  pressureOn: {
    senseless: [[(s) => !s.puncture.needleIn, 'needleNotIn'], [(s) => !!s.puncture.pressureOn && !s.puncture.bleedingStopped, 'alreadyDone']],
    flags: (takeNeedleOut.flags ?? []).map(([test, flag]) => [(s: DrawState, now: Stamp) => needle(s, now) && test(s, now), flag] as const),
    records: (s) => [...(is.needleIsIn(s) ? [{ type: 'needleOut' as const }] : []), { type: 'pressureOn' }],
  },
  shieldClicked: { senseless: [[not(out), 'needleNotOut'], [(s) => !!s.puncture.shield, 'alreadyDone']], records: fact({ type: 'shieldClicked' }) },
  sharpsDone: {
    senseless: [[not(out), 'needleNotOut'], [(s) => !!s.puncture.sharps, 'alreadyDone']],
    flags: [[(s) => !s.puncture.shield, 'shieldNotClicked']],
    records: fact({ type: 'sharpsDone' }),
  },
  bleedingStopped: {
    senseless: [[not(out), 'needleNotOut'], [(s) => !!s.puncture.bleedingStopped, 'alreadyDone']],
    flags: [[(s, now) => !!s.opened && is.waited_ms(s.puncture.pressureOn, now) < 1000 * is.pressureNeeded_s(s, s.opened.policy), 'pressureShort']],
    records: fact({ type: 'bleedingStopped' }),
  },
  bleedingContinues: { senseless: [[not(out), 'needleNotOut']], records: (s) => [...raise('bleedingContinues')(s), { type: 'pressureOn' }] },
  bandageOn: {
    senseless: [[not(out), 'needleNotOut'], [(s) => !!s.puncture.bandage, 'alreadyDone']],
    flags: [[(s, now) => is.waited_ms(s.puncture.bleedingStopped, now) < policy_ms(s, 'siteWatch_s'), 'siteNotWatched']],
    records: fact({ type: 'bandageOn' }),
  },
  labelsDone: {
    senseless: [[(s) => !is.anyBlood(s), 'noSpecimens'], [(s) => !!s.labelsDone, 'alreadyDone']],
    flags: [
      [(s) => is.unread(s).length > 0, 'labelsNotReadBack'],
      [(s, now) => is.waited_ms(s.puncture.bandage, now) > policy_ms(s, 'labelWait_min'), 'labelsLate'],
    ],
    records: fact({ type: 'labelsDone' }),
  },
  unlabelledTube: raised('unlabelledTube'),
  aftercareTold: { senseless: [[(s) => !!s.aftercare, 'alreadyDone']], records: fact({ type: 'aftercareTold' }) },
  spinStarted: {
    senseless: [[(s) => toSpin(s).length === 0, 'nothingToSpin']],
    flags: [[(s, now) => toSpin(s).some((id) => is.waited_ms(s.tubes.find((tube) => tube.id === id)?.off, now) < 60_000 * (is.planned(s, id)?.clot_min ?? 0)), 'spunEarly']],
    records: (s) => [{ type: 'spinStarted', tubeIds: toSpin(s) }],
  },
  courierTook: { senseless: [[(s) => !is.anyBlood(s), 'noSpecimens'], [(s) => !!s.courier, 'alreadyDone'], [(s) => !s.closed, 'notClosed']], records: fact({ type: 'courierTook' }) },

  swelling: raised('swelling'),
  brightBlood: raised('brightBlood'),
  sharpPain: raised('sharpPain'),
  faint: raised('faint'),
  nausea: raised('nausea'),
  needlestick: raised('needlestick'),
  stopEverything: raised('stopEverything'),
  interrupted: raised('interrupted'),
  resumeDraw: { senseless: [[(s) => !is.exceptionIsOpen(s, 'interrupted'), 'nothingOpen']], records: () => [] },
  tryAgain: {
    senseless: [
      [(s) => !is.bodyIsSafe(s), 'notSafeYet'],
      [(s) => is.sharpIsLoose(s), 'sharpOpen'],
      [(s) => is.woundIsOpen(s), 'stillBleeding'],
      [(s) => is.severeIsOpen(s), 'severeOpen'],
      [(s) => is.drawIsEnding(s) || s.noMore || s.closed !== undefined, 'noFurtherPuncture'],
      [(s) => is.waitingTubes(s).length === 0, 'noTubeLeft'],
      [(s) => !s.puncture.needleIn && !s.puncture.ending, 'notPausedNow'],
      [(s) => !is.mayTryAgain(s), 'twoAttempts'],
    ],
    records: (s) => [{ type: 'punctureBegun', number: s.puncture.number + 1 }],
  },
}
