import type { ExceptionKind } from './exceptions.ts'
import type { PlainCommand } from './commands.ts'

/** `severe` takes the whole screen; `act` needs an answer before the path goes on; `note` is said once. */
export type Severity = 'note' | 'act' | 'severe'

export interface ExceptionRow {
  readonly severity: Severity
  /** No more blood is taken through this needle. */
  readonly endsPuncture: boolean
  /** No further puncture is offered in this draw. */
  readonly endsDraw: boolean
  /** What a person says or touches to be done with it, besides `exceptionHandled`. */
  readonly endedBy: readonly PlainCommand[]
}

const row = (
  severity: Severity,
  effect: 'goesOn' | 'endsPuncture' | 'endsDraw',
  ...endedBy: PlainCommand[]
): ExceptionRow => ({
  severity,
  endsPuncture: effect !== 'goesOn',
  endsDraw: effect === 'endsDraw',
  endedBy,
})

/** Blood came after all. */
const FILLED = ['tubeFull', 'tubeShort', 'syringeFull', 'syringeShort'] as const

/**
 * What each exception does to the path. Sources for the stops: nerve pain, needle out at once and report;
 * bright or pulsing blood, needle out and five minutes' pressure (CLSI GP41-A7 as explained in a 2018 column);
 * faint, needle out, patient flat. The rest is common practice, no source.
 */
export const EXCEPTION_TABLE: Readonly<Record<ExceptionKind, ExceptionRow>> = {
  identityMismatch: row('severe', 'endsDraw'),
  notPrepared: row('act', 'goesOn'),
  noFlash: row('act', 'goesOn', 'flashSeen', ...FILLED, 'needleOut'),
  veinRolled: row('act', 'goesOn', 'flashSeen', 'flowRestored', ...FILLED, 'needleOut'),
  flowLost: row('act', 'goesOn', 'flowRestored', ...FILLED, 'needleOut'),
  slowFlow: row('note', 'goesOn', 'flowRestored', 'tubeFull', 'tubeShort', 'needleOut'),
  slowDrops: row('note', 'goesOn', 'tubeFull', 'tubeShort', 'pressureOn'),
  // Whoever pulls too hard shuts the vein on the needle (army training course MD0533, excerpt).
  slowPull: row('note', 'goesOn', 'flowRestored', 'syringeFull', 'syringeShort', 'needleOut'),
  noVacuum: row('note', 'goesOn', 'tubeOn', 'needleOut'),
  shortFill: row('note', 'goesOn', 'tubeOn', 'lastTube', 'needleOut', 'labelsDone'),
  wrongTube: row('note', 'goesOn', 'tubeOn', 'confirmSupplies', 'needleOut'),
  expiredTube: row('note', 'goesOn', 'tubeOn', 'confirmSupplies', 'needleOut'),
  droppedTube: row('act', 'goesOn', 'tubeOn', 'labelsDone'),
  unlabelledTube: row('act', 'goesOn'),
  bandOver: row('severe', 'goesOn', 'bandOff'),
  swelling: row('severe', 'endsPuncture'),
  brightBlood: row('severe', 'endsPuncture'),
  sharpPain: row('severe', 'endsPuncture'),
  faint: row('severe', 'endsPuncture'),
  nausea: row('act', 'goesOn'),
  bleedingContinues: row('act', 'goesOn', 'bleedingStopped'),
  consentWithdrawn: row('severe', 'endsDraw'),
  needlestick: row('severe', 'endsPuncture', 'colleagueHere'),
  interrupted: row('act', 'goesOn', 'resumeDraw'),
  handover: row('note', 'goesOn'),
  stopEverything: row('severe', 'endsDraw'),
}

/**
 * After these the arm is left alone for the rest of the draw: no band or cuff for 24 hours on an arm whose artery was
 * hit (hospital manual of clinical procedures, complications), and a second attempt only where the first has not
 * already done harm (laboratory trade journal). Which others close it is common practice, no source.
 */
export const ARM_CLOSERS = [
  'brightBlood',
  'sharpPain',
  'swelling',
] as const satisfies readonly ExceptionKind[]
export type ArmCloser = (typeof ARM_CLOSERS)[number]

export function isArmCloser(kind: string): kind is ArmCloser {
  return (ARM_CLOSERS as readonly string[]).includes(kind)
}

export function endsPuncture(kind: ExceptionKind): boolean {
  return EXCEPTION_TABLE[kind].endsPuncture
}

export function isSevere(kind: ExceptionKind): boolean {
  return EXCEPTION_TABLE[kind].severity === 'severe'
}
