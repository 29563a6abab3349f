import {
  ARMS,
  type Arm,
  type ArmRestriction,
  type NeedleSet,
  type Preparation,
} from '../order/order.ts'
import type { PlannedTube } from '../plan/plan.ts'
import { ownValue } from '../basics/ownValue.ts'
import { limit } from '../policy/policy.ts'
import { elapsed, type Reading, type Stamp } from '../time/stamp.ts'
import type { ArmFinding } from './events.ts'
import type { ExceptionKind } from './exceptions.ts'
import { EXCEPTION_TABLE, isSevere, type ArmCloser } from './exceptionTable.ts'
import { armIsAllowed } from './armDecisions.ts'
import { isYounger } from './isYounger.ts'
import { attempts, identityConfirmed, isSpecimen, mustBeMixed } from './sharedPredicates.ts'
import { specimenNumber } from './specimenNumber.ts'
import type { BandPeriod, DrawState, TubeProgress } from './state.ts'

/** Questions about a draw, asked by the step table, the rules and the clocks. */

/** The wristband scanned last is another's, and nobody who may has said to go on all the same. */
export const wristbandDiffers = (s: DrawState): boolean =>
  s.identifiers.recordNumber === false &&
  !s.decisions.some(({ about, decision }) => about === 'wristband' && decision === 'proceed')

export const identityChecked = (s: DrawState): boolean =>
  identityConfirmed(s.identifiers) && !wristbandDiffers(s)

/** Every puncture of the draw, the present one last. */
export const allPunctures = (
  s: Pick<DrawState, 'past' | 'puncture'>,
): readonly DrawState['puncture'][] => [...s.past, s.puncture]

/** Blood comes drop by drop from a finger or heel. */
export const isCapillary = (s: DrawState): boolean => s.collecting !== undefined

/** A bandage may end in the mouth: none on the youngest, wherever the blood came from. */
export const tooYoungForBandage = (s: Pick<DrawState, 'opened' | 'openedAt'>): boolean =>
  isYounger(s, 'bandageFrom_y')

export const identityAnswered = (s: DrawState): boolean =>
  identityChecked(s) || s.seen.includes('identityMismatch')

export const prepared = (s: DrawState): boolean =>
  s.preparation === 'checked' || s.preparation === 'proceed'

export const currentBand = (s: DrawState): BandPeriod | undefined => {
  const last = s.bands.at(-1)
  return last && !last.off ? last : undefined
}

/** The band's stretches on the arm now in question, or on an arm nobody named. */
export const bandsHere = (s: DrawState): readonly BandPeriod[] =>
  s.bands.filter(({ arm }) => !arm || !s.puncture.arm || arm === s.puncture.arm)

export const lastBandHere = (s: DrawState): BandPeriod | undefined => bandsHere(s).at(-1)

export const bandIsOn = (s: DrawState): boolean => currentBand(s) !== undefined

/**
 * Somebody said that blood does not come as it should: the band may stay on, or go on again, while the needle is in.
 * What a clock guesses from the time a tube takes keeps no band on an arm.
 */
export const flowFalters = (s: DrawState): boolean =>
  s.exceptions.some(({ kind, noticed }) => FLOW_TROUBLE.has(kind) && !noticed)

const FLOW_TROUBLE: ReadonlySet<ExceptionKind> = new Set([
  'noFlash',
  'veinRolled',
  'flowLost',
  'slowFlow',
  'slowPull',
])

export const needleIsIn = (s: DrawState): boolean =>
  s.puncture.needleIn !== undefined && s.puncture.needleOut === undefined

export const tubeIsOn = (s: DrawState): boolean => s.tubeOn !== undefined

export const planned = (s: DrawState, id: string): PlannedTube | undefined =>
  s.plan.tubes.find((tube) => tube.id === id)

export const waitingTubes = (s: DrawState): readonly TubeProgress[] =>
  s.tubes.filter(({ id, on, fill }) => {
    const tube = planned(s, id)
    if (!tube || !on) return tube !== undefined
    // A new plan gives the tests of a tube that stayed empty to another: that one is not filled as well.
    return fill === 'empty' && (tube.role !== 'specimen' || tube.tests.length > 0)
  })

/** The tube that is to be drawn next: the first waiting one in the order of the plan. */
export const nextTube = (s: DrawState): TubeProgress | undefined => {
  const waiting = new Set(waitingTubes(s).map((tube) => tube.id))
  const id = s.plan.tubes.find((tube) => waiting.has(tube.id))?.id
  return s.tubes.find((tube) => tube.id === id)
}

export const tubeInHolder = (s: DrawState): TubeProgress | undefined =>
  s.tubes.find((tube) => tube.id === s.tubeOn)

/** The tube with blood in it that came off the holder last. */
export const lastDrawn = (s: DrawState): TubeProgress | undefined =>
  s.tubes
    .filter((tube) => tube.off && tube.fill !== 'empty')
    .sort((a, b) => (a.off?.at_ms ?? 0) - (b.off?.at_ms ?? 0))
    .at(-1)

export const needsMixing = (s: DrawState, tube: TubeProgress): boolean =>
  tube.off !== undefined && tube.mixed === undefined && mustBeMixed(planned(s, tube.id), tube)

/** Tubes off the holder whose additive is not yet mixed in, oldest first. */
export const unmixed = (s: DrawState): readonly TubeProgress[] =>
  s.tubes
    .filter((tube) => needsMixing(s, tube))
    .sort((a, b) => (a.off?.at_ms ?? 0) - (b.off?.at_ms ?? 0))

/** Tubes with blood that go to the laboratory, so need a label. */
export const specimens = (s: DrawState): readonly TubeProgress[] =>
  s.tubes.filter((tube) => isSpecimen(planned(s, tube.id), tube))

export const unread = (s: DrawState): readonly TubeProgress[] =>
  specimens(s).filter((tube) => s.readBack[tube.id] !== true)

/** Tubes whose label is still to be read back; what goes without one by decision has none. */
export const toReadBack = (s: DrawState): readonly TubeProgress[] =>
  unread(s).filter(({ id }) => !s.unlabelled.includes(id))

/** A tube was found without a label, and nobody has said what becomes of it. */
export const unlabelledIsOpen = (s: DrawState): boolean =>
  exceptionIsOpen(s, 'unlabelledTube') && goesToLaboratory(s)

/** The number that the label of a tube should bear. */
export const labelNumber = (s: DrawState, tubeId: string): string =>
  s.accessions[tubeId] ?? specimenNumber(s.opened.drawId, tubeId, ownValue(s.redrawn, tubeId))

/** The laboratory's own labels are used, and the one for this tube has not been scanned. */
export const awaitsAccession = (s: DrawState, tubeId: string): boolean =>
  s.opened.labelsBy === 'laboratory' && s.accessions[tubeId] === undefined

/** Needles that really went in, by a person; lancets are counted apart. */
export const attemptsBy = (s: DrawState, collectorId: string): number =>
  attempts(
    allPunctures(s).filter(({ isLancet }) => !isLancet),
    collectorId,
  )

export const attemptsInAll = (s: DrawState): number => attempts(allPunctures(s))

/** The person at the chair may put another needle in. */
export const mayTryAgain = (s: DrawState): boolean =>
  bodyIsSafe(s) &&
  !s.closed &&
  waitingTubes(s).length > 0 &&
  !s.noMore &&
  !drawIsEnding(s) &&
  !wasPricked(s) &&
  !triesAreUsed(s)

/** Whoever is at the chair was stuck in this draw: they put no further needle in, also after first aid. */
export const wasPricked = (s: DrawState): boolean => s.pricked?.by === s.collector.id

/** First aid goes on beside the draw. */
export const prickIsOpen = (s: DrawState): boolean =>
  s.pricked !== undefined && !s.pricked.isSettled

/**
 * No further attempt without somebody else: for a vein another person, for a finger or heel whoever may decide (WHO
 * guidelines on drawing blood 2010, as quoted: after two attempts in a child a second opinion).
 */
export const triesAreUsed = (s: DrawState): boolean => {
  const most = limit(s.opened.policy, 'attemptsPerPerson_n')
  if (!isCapillary(s)) return attemptsBy(s, s.collector.id) >= most
  const decided = s.decisions.filter(
    ({ about, decision }) => about === 'redraw' && decision === 'proceed',
  )
  return attemptsInAll(s) >= most + decided.length
}

/** A finger or heel of that side was lanced in this draw. */
export const wasLanced = (s: DrawState, side: Arm): boolean =>
  isCapillary(s) && s.past.some(({ arm, needleIn }) => needleIn !== undefined && arm === side)

/**
 * Nobody said of this lancet that it is not where one was before: the side was lanced and no other place on it is
 * named, or no side is named at all.
 */
export const mayBeSamePlace = (s: DrawState): boolean => {
  const { arm, elsewhere, needleOut } = s.puncture
  if (!isCapillary(s) || attemptsInAll(s) === 0) return false
  // A further lancet without a word of its place begins a puncture of its own.
  return needleOut !== undefined || arm === undefined || (wasLanced(s, arm) && !elsewhere)
}

/** Something was raised after which no further needle is offered. */
export const drawIsEnding = (s: DrawState): boolean =>
  s.consent === 'refused' ||
  s.consent === 'withdrawn' ||
  s.preparation === 'stop' ||
  s.decisions.some(({ decision }) => decision === 'stop') ||
  s.seen.some((kind) => EXCEPTION_TABLE[kind].endsDraw)

/** What was seen at an arm, each once. */
export const findingsAt = (s: DrawState, arm: Arm): readonly ArmFinding[] =>
  s.armsSeen.filter((seen) => seen.arm === arm).map(({ finding }) => finding)

const armRestriction = (s: DrawState, arm: Arm): ArmRestriction | undefined =>
  s.opened.preparation.restrictions[arm] ??
  (findingsAt(s, arm).includes('infusion') ? 'infusion' : undefined)

/** Why an arm is not to be used: what was known before, what is seen at it, or what happened to it in this draw. */
export const armClosedBy = (s: DrawState, arm: Arm): ArmRestriction | ArmCloser | undefined =>
  // A heel is at no arm.
  (s.collecting === 'capillaryHeel' ? undefined : armRestriction(s, arm)) ??
  allPunctures(s).find((p) => p.arm === arm && p.closedBy)?.closedBy

/** The arm is closed, and nobody who may has said that it is used all the same. */
export const isForbidden = (s: DrawState, arm: Arm): boolean =>
  armClosedBy(s, arm) !== undefined && !armIsAllowed(s, arm)

export const isRestricted = (s: DrawState): boolean =>
  s.puncture.arm !== undefined && isForbidden(s, s.puncture.arm)

/** No arm is left that may be used. */
export const noArmLeft = (s: DrawState): boolean => ARMS.every((arm) => isForbidden(s, arm))

/** What is known of the patient, with what was asked at the chair. */
export const answersOf = (s: DrawState): Preparation => ({ ...s.opened.preparation, ...s.answers })

/** The needle and tubing of this puncture; where nobody said it anew, that of the one before. */
export const needleSetOf = (s: DrawState): NeedleSet =>
  allPunctures(s).findLast(({ needleSet }) => needleSet)?.needleSet ?? s.opened.needleSet

/** Only lancets were before it: nobody has chosen a needle or set. */
export const isFirstNeedle = (s: DrawState): boolean =>
  s.opened.collecting !== undefined && !s.past.some((p) => p.needleIn && !p.isLancet)

export const openKinds = (s: DrawState): readonly ExceptionKind[] =>
  s.exceptions.map((open) => open.kind)

export const exceptionIsOpen = (s: DrawState, kind: ExceptionKind): boolean =>
  openKinds(s).includes(kind)

/** Least time since a stamp, ms; 0 when there is none. */
export const waited_ms = (since: Stamp | undefined, now: Reading): number =>
  since ? elapsed(since, now).least_ms : 0

/** Seconds of pressure asked for, by what is known of the patient and of this puncture. */
export const pressureNeeded_s = (s: DrawState): number => {
  const { policy } = s.opened
  // A lanced place is pressed until it has stopped, however long that takes.
  if (isCapillary(s)) return 0
  const { anticoagulant } = answersOf(s)
  // Asked and not known counts as a blood thinner; not asked does not: five minutes for everybody would be guessed too.
  const thin = anticoagulant !== 'none' && anticoagulant !== 'notAsked'
  const usual = limit(policy, thin ? 'pressureAnticoagulant_s' : 'pressure_s')
  const artery = s.seen.includes('brightBlood') || s.seen.includes('bleedingContinues')
  if (!artery) return usual
  const long = limit(policy, 'pressureArtery_s')
  // An artery, or bleeding that goes on, under a blood thinner: longer still (common practice, no source).
  const known = thin && anticoagulant !== 'unknown'
  return known ? long + usual : Math.max(usual, long)
}

export const anyBlood = (s: DrawState): boolean => specimens(s).length > 0

export const bodyIsSafe = (s: DrawState): boolean => !bandIsOn(s) && !tubeIsOn(s) && !needleIsIn(s)

/** A tube was put on in that puncture. */
export const anyTubeIn = (s: DrawState, puncture: number): boolean =>
  s.tubes.some((tube) => tube.puncture === puncture)

/** This site is given up or done with, tubes are still waiting, and another needle may be offered to somebody. */
export const isPaused = (s: DrawState): boolean =>
  !needleIsIn(s) &&
  (s.puncture.needleOut !== undefined || s.puncture.ending) &&
  waitingTubes(s).length > 0 &&
  !s.noMore &&
  !drawIsEnding(s)

/** Blood of a patient who turned out to be somebody else is neither labeled nor sent. */
export const goesToLaboratory = (s: DrawState): boolean =>
  anyBlood(s) && !s.seen.includes('identityMismatch')

/** The needle that was out last is bleeding, or lies outside the sharps box. */
export const woundIsOpen = (s: DrawState): boolean =>
  s.puncture.needleOut !== undefined && s.puncture.bleedingStopped === undefined

export const sharpIsLoose = (s: DrawState): boolean =>
  s.puncture.needleOut !== undefined && s.puncture.sharps === undefined

export const severeIsOpen = (s: DrawState): boolean =>
  s.exceptions.some((open) => isSevere(open.kind))
