/** A device as the hub is to know it. */
export interface PassHolder {
  readonly device: string
  readonly passKey: string
  readonly isDesk: boolean
}

/** Passes at the clinic's hub: each device makes its own; who holds the clinic's key signs and revokes them. */
export interface HubRights {
  /** A new pass: its public key, and the seed that never leaves the device. */
  newPass(): Promise<{ readonly passKey: string; readonly seed: string }>
  /**
   * Signs what a device may do at the hub.
   * @param desk the text of the clinic's desk file
   * @throws Error for a text that is no such file
   */
  sign(desk: string, holder: PassHolder): Promise<string>
  /** Cuts these passes off at the hub, from now on and for good. Rejects with a `HubError` where that is not sure. */
  cutOff(desk: string, passKeys: readonly string[]): Promise<void>
  /** Which clinic a desk file is of; `undefined` for anything else. */
  clinicOf(desk: string): string | undefined
}
