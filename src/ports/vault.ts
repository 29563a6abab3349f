/** Bytes that only the data key opens. The context is bound to them: at another place they do not open. */
export interface Sealed {
  readonly iv: Uint8Array<ArrayBuffer>
  readonly data: Uint8Array<ArrayBuffer>
}

/** `none`: no PIN was ever set, everything is plain. `locked`: the key is not in this page. */
export type VaultState = 'none' | 'locked' | 'open'

/** Seals what is stored. What it cannot do it rejects: `locked`, or `damaged` for bytes that were changed. */
export interface Sealer {
  state(): VaultState
  seal(context: string, text: string): Promise<Sealed>
  unseal(context: string, sealed: Sealed): Promise<string>
}

/** How a slow key was made; kept beside what it wraps, so that it can be made slower later. */
export interface SlowKeyParameters {
  readonly name: 'scrypt'
  readonly N: number
  readonly r: number
  readonly p: number
  /** Hex. */
  readonly salt: string
}

/** The data key as it is stored: encrypted. All hex. */
export interface WrappedKey {
  readonly iv: string
  readonly key: string
}

/** All that is stored of the vault. Nothing in it opens anything without the PIN or the recovery key. */
export interface VaultRecord {
  readonly version: 1
  readonly slow: SlowKeyParameters
  readonly byPin: WrappedKey
  readonly byRecovery: WrappedKey & { readonly salt: string }
  /** Wrong PINs in a row, over every page and reload. */
  readonly wrong: number
  /** Records from before the PIN may still be stored in plain. */
  readonly isSealing: boolean
  /** Somebody with the PIN wants it turned off: records are being put back in plain. The PIN holds until all are. */
  readonly isUnsealing?: boolean
}

/** Keeps the one record; each change is one transaction. Rejects with a `StorageError`. */
export interface VaultStore {
  read(): Promise<VaultRecord | undefined>
  /** Puts what `change` makes of the stored record in its place, or leaves it where that is `undefined`. */
  update(
    change: (record: VaultRecord | undefined) => VaultRecord | undefined,
  ): Promise<VaultRecord | undefined>
}

export type Opening =
  | { readonly kind: 'open' }
  | { readonly kind: 'wrong'; readonly wait_ms: number }
  /** Nothing was tried: the wait after wrong PINs is not over. */
  | { readonly kind: 'wait'; readonly wait_ms: number }

/** Locks what is stored behind a PIN. */
export interface Vault extends Sealer {
  /**
   * Reads what is stored; to be called once before anything else, and again to learn what other pages have made of it.
   */
  load(): Promise<VaultState>
  /**
   * Makes a data key and wraps it by the PIN and by a recovery key, which is handed out here and never again.
   * @throws Error when a PIN is already set
   */
  setUp(pin: string): Promise<string>
  open(pin: string): Promise<Opening>
  /** Opens by the recovery key and sets a new PIN in one act; false for a wrong key, and nothing is changed. */
  openByRecovery(recoveryKey: string, newPin: string): Promise<boolean>
  /** Wraps the same data key by another PIN; what is stored stays as it is. The present PIN is asked for. */
  changePin(pin: string, newPin: string): Promise<Opening>
  /** Wraps the same data key by a new recovery key; the old one opens nothing any more. */
  renewRecovery(pin: string): Promise<Opening & { readonly recoveryKey?: string }>
  /** Asks for the PIN, and notes that it is to be turned off: what is sealed has to be put back in plain first. */
  turnOff(pin: string): Promise<Opening>
  isUnsealing(): boolean
  lock(): void
  /** How long no PIN is tried, ms; 0 when one may be. */
  wait_ms(): number
  isSealing(): boolean
  /** Every record is sealed. */
  sealed(): Promise<void>
}
