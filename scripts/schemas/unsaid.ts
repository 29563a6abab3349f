import type { CommandKey } from '../../src/core/protocol/commands.ts'

/**
 * Commands whose plain wordings would frighten a patient who hears them, or tell of what went wrong: each has one
 * neutral wording more (common practice, no source).
 */
export const UNSAID = [
  'refuseIdentity',
  'refuseConsent',
  'withdrawConsent',
  'brightBlood',
  'needlestick',
  'faint',
  'nausea',
  'sharpPain',
  'swelling',
  'bleedingContinues',
  'stopEverything',
  'wrongTube',
  'expiredTube',
  'droppedTube',
  'unlabelledTube',
  'unlabelledEnd:discarded',
  'unlabelledEnd:sentAsIs',
  'labelWrong',
  'noFlash',
  'veinRolled',
  'flowLost',
  'slowFlow',
  'noVacuum',
  'tubeEmpty',
  'squeezed',
  'circleBad:clotted',
  'tryAgain',
  'endBecause:noVein',
  'endBecause:unwell',
] as const satisfies readonly CommandKey[]
