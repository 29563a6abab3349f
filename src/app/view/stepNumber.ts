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
  supplies: 4,
  hands: 5,
  site: 6,
  vein: 7,
  set: 7,
  cleanse: 8,
  dry: 9,
  band: 10,
  needle: 11,
  flash: 12,
  tube: 13,
  filling: 14,
  release: 13,
  takeOff: 15,
  mix: 15,
  lastTube: 16,
  needleOut: 17,
  pressure: 17,
  shield: 18,
  sharps: 19,
  handling: 20,
  bleeding: 20,
  bandage: 21,
  handled: 21,
  again: 21,
  colleague: 21,
  unlabelled: 22,
  labels: 22,
  aftercare: 23,
  rack: 24,
  end: 24,
  spin: 24,
  courier: 24,
  finished: 24,
}

export const STEPS_IN_ALL = Math.max(...Object.values(STEP_NUMBERS))

export function stepNumber(id: StepId): number {
  return STEP_NUMBERS[id]
}
