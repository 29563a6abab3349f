import type { TextValues } from '../basics/fillText.ts'
import type { ShapeFault } from './shape.ts'

/** What can be wrong with a log. */
export type FaultKind =
  | 'notJson'
  | 'foreign'
  | 'futureVersion'
  | 'gap'
  | 'repeated'
  | 'outOfOrder'
  | 'brokenHash'
  | 'timeBackwards'
  | 'badEvent'
  | 'truncated'
  | 'altered'
  | 'badSignature'
  | 'impossible'

/** Every fault that can be named, and what kind it is. The wording is in the language's `log` file. */
export const LOG_FAULTS = {
  notALog: 'foreign',
  notUtf8: 'altered',
  noVersion: 'foreign',
  noEntries: 'foreign',
  notAnEntry: 'foreign',
  newerVersion: 'futureVersion',
  empty: 'truncated',
  breaksOffAfter: 'truncated',
  breaksOffIn: 'truncated',
  noEnd: 'truncated',
  tooFew: 'truncated',
  unreadableAfter: 'notJson',
  unreadableIn: 'notJson',
  tooDeep: 'altered',
  doubledKey: 'altered',
  reservedKey: 'altered',
  tooLarge: 'altered',
  byteOrderMark: 'altered',
  stoodBefore: 'repeated',
  notInOrder: 'outOfOrder',
  missing: 'gap',
  otherLink: 'brokenHash',
  otherHash: 'brokenHash',
  shape: 'badEvent',
  unknownEvent: 'badEvent',
  opensTwice: 'badEvent',
  opensNot: 'badEvent',
  earlier: 'timeBackwards',
  otherDraw: 'altered',
  addedLater: 'altered',
  otherEnd: 'altered',
  otherText: 'altered',
  unsignedField: 'altered',
  otherPart: 'altered',
  keyName: 'badSignature',
  signature: 'badSignature',
  otherKey: 'badSignature',
  tooMany: 'impossible',
  practiceWaits: 'impossible',
  drawId: 'impossible',
  tubeId: 'impossible',
  tubeTwice: 'impossible',
  unreadableText: 'impossible',
  nameParts: 'impossible',
  noSuchDay: 'impossible',
  bornLater: 'impossible',
  bornTooEarly: 'impossible',
  amount: 'impossible',
  limit: 'impossible',
  unknownLimit: 'impossible',
  monoBack: 'impossible',
  clocksApart: 'impossible',
  noSuchOffset: 'impossible',
  noSuchYear: 'impossible',
  exportedEarly: 'impossible',
  openingUndone: 'impossible',
  undoneAhead: 'impossible',
  addendumEarly: 'impossible',
} as const satisfies Readonly<Record<string, FaultKind>>
export type LogFaultId = keyof typeof LOG_FAULTS

/** The first thing found wrong. `seq` is the number of the entry; 0 when it is the file and not one entry. */
export interface LogFault {
  readonly kind: FaultKind
  readonly seq: number
  readonly id: LogFaultId
  readonly values: TextValues
  /** What an entry should have had, where it has another shape. */
  readonly shape?: ShapeFault
}

/** @param seq of the entry; 0 for the file as a whole. */
export function logFault(id: LogFaultId, seq = 0, values: TextValues = {}): LogFault {
  return { kind: LOG_FAULTS[id], seq, id, values: { seq, ...values } }
}
