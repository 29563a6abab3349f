/** Why something could not be kept or read on this device. The words for each stand in the language files. */
export const STORAGE_FAULTS = [
  /** The browser's room for this page is used up. */
  'full',
  /** Another tab keeps an older version of the database open. */
  'blocked',
  /** A newer version of the app has been used here. */
  'newer',
  /** The browser allows this page no storage. */
  'refused',
  /** No answer in time; what was asked may still happen. */
  'hanging',
  /** The connection was cut and could not be made again. */
  'closed',
  /** Somebody else has written behind the entry that was to be the last. */
  'movedOn',
  /** Entries are missing before the ones to be written. */
  'gap',
  /** A draw of that number is already here. */
  'alreadyHere',
  /** What is stored cannot be read as a draw. */
  'damaged',
  /** The records of this device are locked. */
  'locked',
  'unknown',
] as const
export type StorageFault = (typeof STORAGE_FAULTS)[number]

/** What a store rejects with. The message is for developers; a person gets the words for the fault. */
export class StorageError extends Error {
  override readonly name = 'StorageError'
  readonly fault: StorageFault

  constructor(fault: StorageFault, message: string, cause?: unknown) {
    super(message, cause === undefined ? undefined : { cause })
    this.fault = fault
  }
}

/** The fault behind anything thrown by a store. */
export function storageFaultOf(error: unknown): StorageFault {
  return error instanceof StorageError ? error.fault : 'unknown'
}
