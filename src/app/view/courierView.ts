import { NOTHING_COUNTED, type Counted } from '../../core/courier/count.ts'
import type { PackGroup } from '../../core/courier/packList.ts'
import type { PackSpecimen } from '../../core/courier/packSpecimen.ts'
import type { DropOff } from '../../core/courier/dropOffs.ts'
import type { SentPack } from '../../core/courier/sentPacks.ts'
import type { Laboratory } from '../../core/catalogue/laboratories.ts'
import type { RejectReason } from '../../core/protocol/benchEvents.ts'

/** Specimens of the last days, as far as they were read. */
export interface CourierView {
  readonly specimens: readonly PackSpecimen[]
  readonly sent: readonly SentPack[]
  readonly dropped: readonly DropOff[]
  /** Draws whose records could not be read: what is in them is not counted here. */
  readonly unread: readonly string[]
}

/** What may be said of a pack: how many it has, that all are in the hand, that some are not, and that it was wrong. */
export type PackSaid = 'number' | 'complete' | 'short' | 'takeBack'

/** What of the packs is in the hand. It lives on this page alone: nobody knows where the tubes were meanwhile. */
export interface CourierCount {
  readonly counted: Counted
  /** What was said last, of which pack, and what was counted before. */
  readonly said?: { readonly of: PackSaid; readonly pack: PackGroup; readonly before: Counted }
}

export const NO_COUNT: CourierCount = { counted: NOTHING_COUNTED }

export const NO_COURIER: CourierView = { specimens: [], sent: [], dropped: [], unread: [] }

/** A pack as it is handed over. */
interface HandOver {
  readonly specimens: readonly PackSpecimen[]
  readonly courier: string
  readonly laboratory: Laboratory | undefined
  /** Numbers of specimens that should have gone as well, and who says that the pack goes without them. */
  readonly missing: readonly string[]
  readonly missingSaidBy: string
}

/** What a person brought, and where it was left. */
interface Brought {
  readonly specimens: readonly PackSpecimen[]
  readonly where: string
  /** Who took them; empty where nobody did. */
  readonly whom: string
  /** Read off in the box as they were left, degrees Celsius. */
  readonly temperature_C?: number
}

/** What can be done with specimens that leave. None rejects; what goes wrong is told. */
export interface CourierActions {
  /** Reads the records of the last days again. */
  refresh(): Promise<void>
  /** These are in the hand. */
  count(counted: Counted): void
  /**
   * Something was said of the pack whose turn it is to be counted: how many it has, `undefined` where no pack waits, or
   * nothing was said that could be taken back.
   */
  packSaid(of: PackSaid): number | undefined
  /** A courier took these. What another page has handed over meanwhile is left out and told. */
  handOver(pack: HandOver): Promise<void>
  /** A person brought these themselves. What has left meanwhile is left out and told. */
  dropOff(brought: Brought): Promise<void>
  /** @param by who took them in, and what was measured as they came; empty where nobody said */
  received(specimens: readonly PackSpecimen[], by: string): Promise<void>
  rejected(specimens: readonly PackSpecimen[], reason: RejectReason, note: string): Promise<void>
  /** The hand-over or drop-off was said in error: the tubes are here again. */
  takeBack(pack: Pick<SentPack, 'act' | 'specimens'>): Promise<void>
}
