import type { TransactionFault } from '../fhir/transaction.ts'
import type { Issue } from './issues.ts'

/** What is handed over: the record of a draw, or how an order that was fetched stands (a Task). */
export type HandedKind = 'draw' | 'task'

export const ROW_STATES = [
  'waiting',
  'handedOver',
  'refused',
  /** A person said that it is not to go. */
  'dropped',
  /** It stood here before handing over was switched on. */
  'earlier',
  /** It came as a file: the device that recorded it hands it over. */
  'broughtIn',
] as const
export type RowState = (typeof ROW_STATES)[number]

/** The key of the row of a draw. */
export const drawKey = (drawId: string): string => `draw/${drawId}`

/** Why something stays here. */
export type Refusal =
  | { readonly by: 'server'; readonly status: number; readonly issues: readonly Issue[] }
  /** It cannot be made ready: what the site has not set, or a record that is damaged. */
  | { readonly by: 'device'; readonly faults: readonly (TransactionFault | 'damaged')[] }

/** How one thing stands that is to be handed over. */
export interface HandOverRow {
  readonly key: string
  readonly kind: HandedKind
  /** Number of the draw, or the id of the order on the day's list. */
  readonly about: string
  /** Tells without reading that something is new: how many entries the log has, or the Task itself. */
  readonly mark: string
  /** Of what was read last: the last hash of the log, or of the Task. Empty where it was never read. */
  readonly hash: string
  readonly state: RowState
  /** ms since 1970 UTC. */
  readonly since_ms: number
  /** Where it stands since it was handed over. */
  readonly server?: string
  readonly refusal?: Refusal
  /** Who dropped it. */
  readonly by?: string
}

/**
 * How something that left was answered. `unanswered`: nobody knows whether it came there; `unsent`: it did not leave
 * after all, for want of a login.
 */
export const LEFT_ANSWERS = [
  'unanswered',
  'done',
  'conflict',
  'refused',
  'trouble',
  'unsent',
] as const
export type LeftAnswer = (typeof LEFT_ANSWERS)[number]

/** One thing that left the device. It names nobody. */
export interface Leaving {
  readonly id: string
  /** ms since 1970 UTC, and the offset of the place. */
  readonly at_ms: number
  readonly offset_min: number
  readonly kind: HandedKind
  readonly about: string
  readonly key: string
  readonly hash: string
  readonly size_B: number
  readonly server: string
  readonly answer: LeftAnswer
  readonly status?: number
}
