import type { CommandKey } from '../../core/protocol/commands.ts'
import type { StepId } from '../../core/protocol/steps.ts'

/**
 * Where a choice stands on the draw screen. A place means one thing in the whole draw, so that a hand learns it: what
 * has no turn leaves its place empty, and nothing else moves in.
 */
export const FIXED_PLACES = ['vein', 'flow', 'tube', 'patient', 'needleOut'] as const
export type FixedPlace = (typeof FIXED_PLACES)[number]

/** `main` confirms the step, `answer` answers what it asks, `sheet` waits behind "what else happened". */
export type Place = FixedPlace | 'main' | 'answer' | 'sheet'

/** What may stand at a place, the most pressing first: where several have their turn the others wait in the sheet. */
const AT_PLACE: Readonly<Record<FixedPlace, readonly CommandKey[]>> = {
  // The band and the vein under it. A band that is on comes before all else.
  vein: [
    'bandOff',
    'noFlash',
    'brightBlood',
    'veinRolled',
    'bleedingContinues',
    'squeezed',
    'bandOn',
    'flashSeen',
  ],
  flow: ['flowRestored', 'slowFlow', 'slowDrops', 'flowLost', 'noVacuum', 'bleedingStopped'],
  // What a tube waits for comes before what may be wrong with it.
  tube: [
    'cardDone',
    'anotherCard',
    'laidFlat',
    'tubeMixed',
    'onIce',
    'keptWarm',
    'keptDark',
    'labelMatches',
    'labelWrong',
    'transferOn',
    'tubeShort',
    'syringeShort',
    'syringeFull',
    'tubeFull',
    'tubeOn',
    'wrongTube',
    'droppedTube',
    'expiredTube',
    'spinStarted',
    'courierTook',
  ],
  patient: ['refuseIdentity', 'refuseConsent', 'withdrawConsent', 'nausea'],
  needleOut: [
    'needleOut',
    'needleIn',
    'pressureOn',
    'shieldClicked',
    'sharpsDone',
    'bandageOn',
    'glovesOff',
    'endDraw',
  ],
}

/** The place of a command where it does not answer its step; `undefined` for one that only the sheet has. */
const PLACE_OF = new Map(
  FIXED_PLACES.flatMap((place) => AT_PLACE[place].map((key) => [key, place] as const)),
)

/** Commands that answer what a step asks: they stand below the question, in the order of the step table. */
const ANSWERS: Readonly<Partial<Record<StepId, (key: CommandKey) => boolean>>> = {
  identity: starts('identified:'),
  consent: starts('consentFrom:'),
  preparation: (key) => starts('antisepticAllergy:', 'latex')(key),
  latex: starts('latex'),
  thinner: starts('thinner:', 'confirmSupplies'),
  fainted: starts('fainted', 'confirmSupplies'),
  born: starts('ageTold:', 'confirmSupplies'),
  feeding: starts('feeding:', 'confirmSupplies'),
  transfused: starts('transfused', 'confirmSupplies'),
  circle: starts('circleBad:'),
  find: starts('chooseArm:', 'seated', 'lyingDown'),
  site: starts('chooseArm:', 'seated', 'lyingDown'),
  side: starts('chooseSide:', 'seated', 'lyingDown'),
  warm: starts('warmOn', 'chooseSide:'),
  vein: starts('chooseVein:'),
  release: starts('chooseArm:'),
  found: starts('armFinding:'),
  supplies: starts('chooseSyringe:'),
  set: starts('chooseSet:', 'chooseSyringe:'),
  cleanse: starts('skinCleanWith:'),
  handling: starts('onIce', 'keptWarm', 'keptDark'),
  unlabelled: starts('unlabelledIs:', 'unlabelledEnd:'),
  again: starts('goToVein:'),
  provider: starts('goToVein:'),
  labels: starts('printLabels', 'labelsDone', 'goToVein:'),
}

function starts(...heads: readonly string[]): (key: CommandKey) => boolean {
  return (key) => heads.some((head) => key.startsWith(head))
}

/** Which place each open command of a step has. A place holds one: the first of its row that is open. */
export function placesOf(
  step: StepId,
  open: readonly CommandKey[],
): ReadonlyMap<CommandKey, Place> {
  const answers = ANSWERS[step]
  const rest = open.filter((key) => !answers?.(key))
  const first = (place: FixedPlace): CommandKey | undefined =>
    AT_PLACE[place].find((key) => rest.includes(key))
  const holders = new Set(FIXED_PLACES.map(first))
  return new Map(
    open.map((key) => {
      if (answers?.(key)) return [key, 'answer']
      return [key, holders.has(key) ? (PLACE_OF.get(key) ?? 'sheet') : 'sheet']
    }),
  )
}

/** The key of a place: the same in the whole draw, whatever stands there. */
export const KEY_OF_PLACE: Readonly<Record<FixedPlace, string>> = {
  vein: '1',
  flow: '2',
  tube: '3',
  patient: '4',
  needleOut: '5',
}

/** Opens the sheet of what else happened. */
export const SHEET_KEY = '6'

/** Keys of what is open at every step. The collector's own prick has none: with it a hand is not at the keys. */
export const KEY_OF_ALWAYS: Readonly<Partial<Record<CommandKey, string>>> = {
  stopEverything: '0',
  faint: '7',
  sharpPain: '8',
  swelling: '9',
  goBack: 'Backspace',
}
