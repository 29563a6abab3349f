/** `entry`: something that happened. `writer`: a device says that it writes the log from here on. */
export type HubEntryKind = 'entry' | 'writer'

/** One message of the clinic's one stream. What is in it only the app can read: the hub takes and gives bytes. */
export interface HubEntry {
  /** Its place among all entries of the clinic, from 1, without two the same. */
  readonly sequence: number
  readonly log: string
  /** The device that sent it; the hub lets a device send under its own name only. */
  readonly device: string
  readonly kind: HubEntryKind
  /** The sequence of the entry before it in its log, whoever sent that; 0 for the first, or `BEHIND_UNTOLD`. */
  readonly behind: number
  /** When the hub took it, by the hub's own clock. */
  readonly at_ms: number
  readonly bytes: Uint8Array
}

/** One as a device keeps it. */
export interface KeptHubEntry extends HubEntry {
  /** Its signature was looked at before it was kept, and is the device's. */
  readonly isVerified?: true
}

/** How far somebody has read. The time tells a hub that came back from an old copy and counts again. */
export interface HubPosition {
  readonly sequence: number
  readonly at_ms: number
}

/** Before everything. */
export const HUB_START: HubPosition = { sequence: 0, at_ms: 0 }

/**
 * What an entry follows whose writer did not say it: it came past this app, and stands in its log all the same, so that
 * it stops no reader. What it is worth its signature tells.
 */
export const BEHIND_UNTOLD = -1
