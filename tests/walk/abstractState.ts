import { ARMS } from '../../src/core/order/order.ts'
import { overLimit } from '../../src/core/protocol/bloodTaken.ts'
import { cardIsWanted } from '../../src/core/protocol/card.ts'
import * as drawFacts from '../../src/core/protocol/facts.ts'
import { hasSyringe } from '../../src/core/protocol/syringe.ts'
import type { DrawState, Puncture } from '../../src/core/protocol/state.ts'

/** Exceptions that steer the draw after they are over. */
const LASTING = ['identityMismatch', 'consentWithdrawn', 'stopEverything'] as const
/** More attempts than this make no further difference. */
const MOST_ATTEMPTS = 3

/**
 * What of a state decides how a draw can go on: which facts stand, not when or in which words. Two states with the
 * same key allow the same commands and lead to states with the same keys.
 */
export function abstractState(s: DrawState): string {
  const p = s.puncture
  const attempts = (id: string): number => Math.min(MOST_ATTEMPTS, drawFacts.attemptsBy(s, id))
  return [
    s.identifiers.fullName, drawFacts.wristbandDiffers(s), s.consent, s.preparation, s.supplies, has(s.cardChecked), cardIsWanted(s) && [drawFacts.answersOf(s).ageTold, drawFacts.answersOf(s).feeding, drawFacts.answersOf(s).transfused].map(has), s.hands, s.collector.id, has(s.colleagueTook), drawFacts.wasPricked(s), drawFacts.prickIsOpen(s), attempts('c1'), attempts('c2'),
    drawFacts.currentBand(s) ? (drawFacts.currentBand(s)?.arm ?? 'someArm') : '',
    s.tubes.map(({ on, off, fill, mixed, handled, circles, dried }) => `${has(on)}${has(off)}${fill ?? ''}${has(mixed)}${Object.keys(handled ?? {}).length}${circles ? circlesKey(circles) : ''}${has(dried)}`), s.tubeOn, overLimit(s, drawFacts.nextTube(s)?.id),
    p.arm ?? p.bandSeen, ARMS.map((arm) => drawFacts.isForbidden(s, arm)), s.decisions.some(({ decision }) => decision === 'stop'), drawFacts.isCapillary(s), drawFacts.triesAreUsed(s), drawFacts.isFirstNeedle(s), drawFacts.answersOf(s).latexAllergy === undefined, drawFacts.answersOf(s).anticoagulant === 'notAsked', drawFacts.answersOf(s).faintedBefore === undefined, drawFacts.needleSetOf(s).kind, has(p.needleSet), p.closedBy !== undefined && p.arm === undefined, has(p.vein), has(p.cleaned), has(p.dry), has(p.needleIn), has(p.flash), hasSyringe(s), p.pulled && p.pulled.most_mL > 0, has(p.transfer), has(p.warming), has(p.warm), p.elsewhere, ARMS.map((side) => drawFacts.wasLanced(s, side)), drawFacts.mayBeSamePlace(s), has(p.wiped), has(p.lastTubeOff), has(p.needleOut), has(p.pressureOn),
    has(p.shield), has(p.sharps), has(p.bleedingStopped), has(p.bandage), p.ending, s.tubes.some(({ puncture }) => puncture === p.number),
    JSON.stringify(Object.entries(s.readBack).sort()), Object.keys(s.accessions).sort(), s.unlabelled.length > 0, s.noMore, has(s.labelsDone), has(s.aftercare), has(s.racked), s.spun.length, s.sent.length, has(s.courier),
    s.exceptions.map(({ kind, noticed, tubeId }) => (noticed ? `${kind}?` : kind === 'unlabelledTube' ? `${kind}${tubeId ?? ''}` : kind)).sort(), LASTING.filter((kind) => s.seen.includes(kind)), s.closed?.outcome,
  ].map((part) => String(part ?? '-')).join('|') // prettier-ignore
}

/** How many circles have a drop, and whether all are good. */
const circlesKey = (circles: readonly string[]): string =>
  `${circles.length}${circles.every((one) => one === 'good')}`

const has = (fact: unknown): string => (fact === undefined ? '0' : '1')

type Enters = 'inTheKey' | 'thinned' | 'noFurtherPart'

/**
 * How each field of a state enters its key: whole, only what of it steers the draw, or not at all because it is the
 * same for the whole walk or needed only to tell and to take back. A new field must be thought of here.
 */
export const STATE_FIELDS: Readonly<Record<keyof DrawState, Enters>> = {
  opened: 'noFurtherPart',
  openedAt: 'noFurtherPart',
  last: 'noFurtherPart',
  plan: 'noFurtherPart',
  kept: 'noFurtherPart',
  flags: 'noFurtherPart',
  cues: 'noFurtherPart',
  patientLanguage: 'noFurtherPart',
  past: 'thinned',
  seen: 'thinned',
  bands: 'thinned',
  spun: 'thinned',
  sent: 'thinned',
  acts: 'noFurtherPart',
  identifiers: 'thinned',
  collecting: 'inTheKey',
  collector: 'inTheKey',
  colleagueTook: 'inTheKey',
  pricked: 'thinned',
  consent: 'inTheKey',
  preparation: 'inTheKey',
  answers: 'thinned',
  decisions: 'thinned',
  armsSeen: 'thinned',
  supplies: 'inTheKey',
  cardChecked: 'inTheKey',
  hands: 'inTheKey',
  position: 'noFurtherPart',
  handsAfter: 'noFurtherPart',
  tubes: 'inTheKey',
  lost: 'thinned',
  bloodApproved: 'thinned',
  tubeOn: 'inTheKey',
  puncture: 'inTheKey',
  readBack: 'inTheKey',
  accessions: 'thinned',
  redrawn: 'noFurtherPart',
  redrawnGiven: 'noFurtherPart',
  lostNumbers: 'noFurtherPart',
  unlabelled: 'thinned',
  noMore: 'inTheKey',
  labelsDone: 'inTheKey',
  aftercare: 'inTheKey',
  racked: 'inTheKey',
  courier: 'inTheKey',
  moments: 'noFurtherPart',
  leftOut: 'noFurtherPart',
  exceptions: 'inTheKey',
  closed: 'inTheKey',
}

/** The same for the fields of a puncture. */
export const PUNCTURE_FIELDS: Readonly<Record<keyof Puncture, Enters>> = {
  number: 'thinned',
  by: 'thinned',
  bandSeen: 'thinned',
  arm: 'inTheKey',
  vein: 'inTheKey',
  cleaned: 'inTheKey',
  dry: 'inTheKey',
  needleIn: 'inTheKey',
  flash: 'inTheKey',
  pulled: 'thinned',
  transfer: 'inTheKey',
  warming: 'inTheKey',
  warm: 'inTheKey',
  elsewhere: 'inTheKey',
  isLancet: 'thinned',
  wiped: 'inTheKey',
  lastTubeOff: 'inTheKey',
  needleOut: 'inTheKey',
  pressureOn: 'inTheKey',
  shield: 'inTheKey',
  sharps: 'inTheKey',
  bleedingStopped: 'inTheKey',
  bandage: 'inTheKey',
  ending: 'inTheKey',
  closedBy: 'thinned',
  cleanedWith: 'noFurtherPart',
  needleSet: 'thinned',
}
