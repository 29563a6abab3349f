import type { Command } from './commands.ts'
import { isCapillary } from './facts.ts'
import type { Impossible } from './impossible.ts'
import type { DrawState } from './state.ts'

const FROM_VEIN: ReadonlySet<Command['type']> = new Set<Command['type']>([
  'chooseArm',
  'chooseVein',
  'chooseSet',
  'sameSet',
  'chooseSyringe',
  'syringeFull',
  'syringeShort',
  'syringeHolds',
  'transferOn',
  'bandOn',
  'bandOff',
  'needleIn',
  'flashSeen',
  'noFlash',
  'veinRolled',
  'brightBlood',
  'slowFlow',
  'flowLost',
  'flowRestored',
  'noVacuum',
  'fistSeen',
  'lastTube',
  'needleOut',
  'shieldClicked',
])

const FROM_SKIN: ReadonlySet<Command['type']> = new Set<Command['type']>([
  'chooseSide',
  'goToVein',
  'warmOn',
  'siteWarm',
  'lanced',
  'dropWiped',
  'squeezed',
  'slowDrops',
])

/** Why a command cannot be about this draw: it belongs to the other way of taking blood. */
export function ofOtherWay(s: DrawState, type: Command['type']): Impossible | undefined {
  if (isCapillary(s)) return FROM_VEIN.has(type) ? 'notFromVein' : undefined
  return FROM_SKIN.has(type) ? 'fromVein' : undefined
}

const AT_SKIN: Readonly<Partial<Record<Impossible, Impossible>>> = {
  needleNotIn: 'notLanced',
  needleNotOut: 'notLanced',
  needleIsIn: 'lancedAlready',
  notSafeYet: 'notPressedYet',
  twoAttempts: 'twoTries',
}

/** The same reason where no needle is in question. */
export function saidOfSkin(s: DrawState, reason: Impossible): Impossible {
  return isCapillary(s) ? (AT_SKIN[reason] ?? reason) : reason
}
