import type { WrappedKeys } from '../core/hub/wrappedKeys.ts'
import type { Sealed } from './vault.ts'

/** Why the clinic's keys did not do what they were asked. The words for each stand in the language files. */
export const CLINIC_KEY_FAULTS = [
  /** This device belongs to no clinic: there is no key yet. */
  'none',
  /** Sealed under a key that this device was not given, or not yet. */
  'unknownKey',
  /** The bytes, their place or their key are not those that were sealed. */
  'damaged',
  /** The records of this device are locked, and the clinic's keys with them. */
  'locked',
  /** Not what somebody wrapped for this device. */
  'notForUs',
  /** The keys cannot be kept or read on this device. */
  'storage',
] as const
export type ClinicKeyFault = (typeof CLINIC_KEY_FAULTS)[number]

/** What the clinic's keys reject with. The message is for developers; a person gets the words for the fault. */
export class ClinicKeyError extends Error {
  override readonly name = 'ClinicKeyError'
  readonly fault: ClinicKeyFault

  constructor(fault: ClinicKeyFault, message: string, cause?: unknown) {
    super(message, cause === undefined ? undefined : { cause })
    this.fault = fault
  }
}

/**
 * The keys that all devices of a clinic share, one after the other: what names a patient is sealed under the one in
 * force before it leaves the device. Earlier ones stay, so that what was sealed under them can still be read.
 * A key is named by what it is, so that no key stands in for another.
 */
export interface ClinicKeys {
  /** Name of the key in force; `undefined` while this device belongs to no clinic. */
  current(): Promise<string | undefined>
  /** Seals under the key in force. Opens again only with the same context. */
  seal(context: string, text: string): Promise<{ readonly key: string; readonly sealed: Sealed }>
  open(context: string, key: string, sealed: Sealed): Promise<string>
  /** Public key to which others wrap the clinic's keys for this device: ECDH P-256, SPKI in hex. */
  identity(): Promise<string>
  /** All keys that this device has, for the device that has the private half of this public key. */
  wrapFor(publicKey: string): Promise<WrappedKeys>
  /** Any other text for the device that has the private half of this public key: a desk file. */
  wrapText(publicKey: string, text: string): Promise<WrappedKeys>
  /** What somebody wrapped for this device; whoever calls has made sure who. */
  unwrapText(wrapped: WrappedKeys): Promise<string>
  /**
   * Keeps keys that were wrapped for this device; gives their names, oldest first. Whoever calls has made sure who
   * wrapped them. Nothing is in force until `use`.
   */
  accept(wrapped: WrappedKeys): Promise<readonly string[]>
  /** Makes and keeps a new key; gives its name. Not in force until `use`, so that others can be given it first. */
  mint(): Promise<string>
  /** Puts a key in force that this device has. */
  use(key: string): Promise<void>
  /** Makes a new key and puts it in force at once: for a clinic of one device. */
  rotate(): Promise<string>
  /** This device leaves the clinic: nothing it was given is kept, its own key pair neither. */
  forget(): Promise<void>
  /** Tells whenever keys came, another one is in force, or all are gone; returns a way to end it. */
  onChange(observer: () => void): () => void
}
