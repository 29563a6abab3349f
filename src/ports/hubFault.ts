/** Why the hub did not do what it was asked. The words for each stand in the language files. */
export const HUB_FAULTS = [
  /** No connection, or no answer in time; what was asked may still have happened. */
  'unreachable',
  /** This device has no right to that. */
  'refused',
  /** The hub's disk or its limit is full. */
  'full',
  /** More bytes than the hub takes in one message. */
  'tooLarge',
  /** What the hub holds does not follow: an entry is missing or cannot be read. */
  'damaged',
  /** The hub runs and does not know this clinic: nobody has set it up. */
  'notSetUp',
  /** The hub was switched off on this device. */
  'stopped',
  /** Not a name under which anything can be kept. */
  'badName',
  /** Nobody was there to answer, or nobody wanted to. */
  'noAnswer',
  'unknown',
] as const
export type HubFault = (typeof HUB_FAULTS)[number]

/** What a hub rejects with. The message is for developers; a person gets the words for the fault. */
export class HubError extends Error {
  override readonly name = 'HubError'
  readonly fault: HubFault

  constructor(fault: HubFault, message: string, cause?: unknown) {
    super(message, cause === undefined ? undefined : { cause })
    this.fault = fault
  }
}

/** Why the hub does not let this device in. */
export const HUB_REFUSALS = [
  /** It does not know the device's pass, or the pass has run out. */
  'credentials',
  /** The pass has run out while it was in use. */
  'expired',
  /** The device was cut off while it was connected. */
  'revoked',
  /** Another hub than the clinic's own answers, or its certificate has run out. A browser does not tell this. */
  'certificate',
] as const
export type HubRefusal = (typeof HUB_REFUSALS)[number]
