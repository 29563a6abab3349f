/** Whether the records of this device may be looked at, as the screens show it. */
export interface LockView {
  readonly state: 'off' | 'open' | 'locked'
  /** A PIN is being tried or set. */
  readonly isBusy: boolean
  /** So long no PIN is tried; 0 when one may be. */
  readonly wait_s: number
  /** What is wrong with the last try, in words. */
  readonly told: string | undefined
  /** What was done as asked, in words. */
  readonly done: string | undefined
  /** Shown once, until somebody says that it is kept. */
  readonly recoveryKey: string | undefined
  /** Records from before the PIN are being encrypted. */
  readonly sealing: { readonly done: number; readonly of: number } | undefined
  /** The PIN is being turned off: records are put back in plain. */
  readonly unsealing: { readonly done: number; readonly of: number } | undefined
}

export const LOCK_OFF: LockView = {
  state: 'off',
  isBusy: false,
  wait_s: 0,
  told: undefined,
  done: undefined,
  recoveryKey: undefined,
  sealing: undefined,
  unsealing: undefined,
}

/** What a person can do about the lock. None rejects; what comes of it is in the view. */
export interface LockActions {
  /** Sets the first PIN: everything stored is encrypted from then on. */
  setPin(pin: string): Promise<void>
  unlock(pin: string): Promise<void>
  recover(recoveryKey: string, newPin: string): Promise<void>
  changePin(pin: string, newPin: string): Promise<void>
  renewRecovery(pin: string): Promise<void>
  /** Turns the PIN off: everything stored is put back in plain. */
  turnPinOff(pin: string): Promise<void>
  /** The recovery key on the screen is printed or written down. */
  keptRecovery(): void
  lockNow(): void
}
