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
}

/** What can be done with specimens that leave. None rejects; what goes wrong is told. */
export interface CourierActions {
  /** Reads the records of the last days again. */
  refresh(): Promise<void>
  /** A courier took these. What another page has handed over meanwhile is left out and told. */
  handOver(pack: HandOver): Promise<void>
  /** A person brought these themselves. What has left meanwhile is left out and told. */
  dropOff(brought: Brought): Promise<void>
  received(specimens: readonly PackSpecimen[], by: string): Promise<void>
  rejected(specimens: readonly PackSpecimen[], reason: RejectReason, note: string): Promise<void>
  /** The hand-over or drop-off was said in error: the tubes are here again. */
  takeBack(pack: Pick<SentPack, 'act' | 'specimens'>): Promise<void>
}
