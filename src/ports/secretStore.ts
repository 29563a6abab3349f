/** What a device keeps to itself of its clinic: keys, its pass at the hub, and on a desk what lets others in. */
export type SecretName = 'keys' | 'pass' | 'desk'

/**
 * Keeps a few texts that must not be read by whoever takes the disk: sealed by the vault while a PIN is set, else by a
 * key of this browser that scripts cannot read out. Rejects with a `StorageError`; `locked` while the vault is.
 */
export interface SecretStore {
  read(name: SecretName): Promise<string | undefined>
  /**
   * Puts what `change` makes of the text in its place; `undefined` leaves it as it is. Two pages change it one after
   * the other: `change` may be called again with what the other one wrote.
   */
  update(
    name: SecretName,
    change: (text: string | undefined) => string | undefined | Promise<string | undefined>,
  ): Promise<string | undefined>
  /** Nothing is kept any more. */
  clear(): Promise<void>
  /** Seals everything as it would be sealed now: to be called when a PIN was set, and before it is taken away. */
  reseal(): Promise<void>
  /** Whether the vault keeps everything from this page now. */
  isLocked(): boolean
}
