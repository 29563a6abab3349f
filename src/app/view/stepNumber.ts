import type { StepId } from '../../core/protocol/steps.ts'

/**
 * Which step of a draw in which nothing goes wrong; what is off that path has the number of the step before it.
 * Cleansing may come after the band: the number tells the place on the path, not how often something was confirmed.
 */
const STEP_NUMBERS: Readonly<Record<StepId, number>> = {
  wristband: 1,
  identity: 1,
  consent: 2,
  preparation: 3,
  decision: 3,
  latex: 3,
  thinner: 3,
  fainted: 3,
  born: 3,
  feeding: 3,
  transfused: 3,
  supplies: 4,
  card: 4,
  hands: 5,
  find: 6,
  side: 6,
  site: 7,
  vein: 8,
  warm: 8,
  found: 9,
  set: 9,
  cleanse: 10,
  dry: 11,
  band: 12,
  needle: 13,
  lance: 13,
  flash: 14,
  wipe: 14,
  tube: 15,
  filling: 16,
  drops: 16,
  circle: 16,
  cardOff: 17,
  release: 15,
  takeOff: 17,
  mix: 17,
  lastTube: 18,
  needleOut: 19,
  pressure: 19,
  press: 19,
  shield: 20,
  sharps: 21,
  lancetAway: 21,
  handling: 22,
  bleeding: 22,
  bandage: 23,
  handled: 23,
  again: 23,
  colleague: 23,
  provider: 23,
  unlabelled: 24,
  labels: 24,
  aftercare: 25,
  rack: 26,
  end: 26,
  spin: 26,
  cardDry: 26,
  courier: 26,
  finished: 26,
}

export const STEPS_IN_ALL = Math.max(...Object.values(STEP_NUMBERS))

export function stepNumber(id: StepId): number {
  return STEP_NUMBERS[id]
}
