import type { Text } from '../../core/basics/fillText.ts'
import type { PinFault } from '../../core/lock/pin.ts'

/** `lock.json` of a language: who may look at what is stored on the device. */
export interface LockTexts {
  readonly language: string
  readonly locked: {
    readonly title: string
    readonly about: string
    readonly pin: string
    readonly open: string
    readonly opening: string
    readonly erase: string
    /** `{digit}` */
    readonly digit: string
    readonly wrong: string
    /** `{n}` seconds. */
    readonly wait: Text
    readonly byRecovery: string
    readonly byPin: string
    readonly recoveryKey: string
    readonly recoveryHint: string
    readonly newPin: string
    readonly recover: string
    readonly recoveryWrong: string
    readonly lost: string
    /** Over the clocks of a draw that was running. */
    readonly running: string
  }
  readonly advice: { readonly text: string; readonly button: string }
  readonly section: {
    readonly title: string
    readonly about: string
    readonly off: string
    readonly on: string
    readonly setPin: string
    readonly pin: string
    readonly pinAgain: string
    readonly pinHint: string
    readonly presentPin: string
    readonly newPin: string
    readonly changePin: string
    readonly changed: string
    readonly newRecovery: string
    readonly lockNow: string
    readonly afterMinutes: string
    readonly afterHint: string
    /** `{done}` of `{of}` */
    readonly sealing: string
    readonly sealingFailed: string
    readonly notAlike: string
    readonly faults: Readonly<Record<PinFault, string>>
    readonly notDuringDraw: string
    readonly alreadySet: string
    readonly notWhileSealing: string
    /** `{done}` of `{of}` */
    readonly unsealing: string
    readonly unsealingFailed: string
    readonly turnedOff: string
    readonly turnOff: {
      readonly open: string
      readonly about: string
      readonly understood: string
      readonly confirm: string
      readonly cancel: string
    }
  }
  readonly recovery: {
    readonly title: string
    readonly about: string
    readonly print: string
    readonly kept: string
    readonly done: string
  }
  readonly records: {
    readonly title: string
    readonly about: string
    readonly kept: string
    readonly mayBeCleared: string
    readonly keptUnknown: string
    readonly days: string
    readonly daysHint: string
    /** `{n}` records older than `{days}` days. */
    readonly old: Text
    readonly none: string
    readonly saveAll: string
    readonly eraseAll: Text
    readonly keptElsewhere: Text
    /** `{n}` */
    readonly erased: Text
  }
  readonly eraseOne: {
    readonly open: string
    readonly about: string
    readonly save: string
    readonly keptElsewhere: string
    readonly erase: string
    readonly cancel: string
  }
  readonly told: {
    readonly unerased: string
    readonly notWhileOpen: string
    /** `{numbers}` of tubes. */
    readonly tubesHere: string
    readonly notTried: string
  }
}
