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

/** The first thing found wrong. `seq` is the number of the entry; 0 when it is the file and not one entry. */
export interface LogFault {
  readonly kind: FaultKind
  readonly seq: number
  /** A sentence for a person. */
  readonly reason: string
}
