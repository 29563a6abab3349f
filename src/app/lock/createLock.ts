import { pinFault } from '../../core/lock/pin.ts'
import type { Clock } from '../../ports/clock.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { Opening, Vault } from '../../ports/vault.ts'
import { troubleText, type StorageTexts } from '../site/storageTexts.ts'
import type { LockTexts } from '../site/lockTexts.ts'
import { LOCK_OFF, type LockActions, type LockView } from './lockView.ts'

export interface LockDeps {
  readonly clock: Clock
  readonly vault: Vault
  /** Encrypts what was stored before there was a PIN; goes on where it was interrupted. */
  readonly sealStored: (onProgress: (done: number, of: number) => void) => Promise<void>
  /** Puts everything back in plain and takes the vault away; goes on where it was interrupted. */
  readonly unsealStored: (onProgress: (done: number, of: number) => void) => Promise<void>
  readonly texts: LockTexts
  readonly storageTexts: StorageTexts
  readonly onView: (view: LockView) => void
  /** The records may be looked at now. */
  readonly onOpen: () => void
  /** Nothing that names a patient may stay on the page. */
  readonly onLock: () => void
  /** A draw runs here: the device never locks during one. */
  readonly isDrawing: () => boolean
  /** Something is recorded and not stored; without the key it could not be. */
  readonly hasUnsaved: () => boolean
  /** Without use for so long the device locks. */
  readonly lockAfter_min: () => number
}

export interface Lock {
  readonly actions: LockActions
  /** Settles how the page begins. */
  start(): void
  /** Somebody uses the page. */
  noticeUse(): void
  /** Another page has set a PIN, or turned it off. */
  noticeForeignPin(): void
  /** A draw has ended or something was saved: what had to wait for it is done. */
  reconsider(): void
}

const SECOND_ms = 1000

/**
 * Open, locked, waiting after wrong PINs, or being set up. Outside a draw the page locks when it is not used; the key
 * goes as soon as nothing needs it any more, and always before anything of a record could be shown again.
 */
export function createLock(deps: LockDeps): Lock {
  const { clock, vault, texts } = deps
  let view: LockView = LOCK_OFF
  let usedAt_ms = clock.read().mono_ms
  let isForeign = false
  let cancelIdle: (() => void) | undefined
  let cancelWait: (() => void) | undefined

  const show = (change: Partial<LockView>): void => {
    view = { ...view, ...change }
    deps.onView(view)
  }

  /** Counts the wait down on the screen, second by second. */
  function countDown(): void {
    cancelWait?.()
    const wait_s = Math.ceil(vault.wait_ms() / SECOND_ms)
    show({ wait_s })
    cancelWait = wait_s > 0 ? wakeIn(clock, SECOND_ms, countDown) : undefined
  }

  function watchIdle(): void {
    cancelIdle?.()
    const over_ms = usedAt_ms + deps.lockAfter_min() * 60_000
    const left_ms = Math.max(SECOND_ms, over_ms - clock.read().mono_ms)
    cancelIdle = wakeIn(clock, left_ms, () => {
      if (view.state !== 'open') return
      const isIdle = clock.read().mono_ms >= usedAt_ms + deps.lockAfter_min() * 60_000
      if (isIdle && !deps.isDrawing() && !view.recoveryKey) lock()
      else watchIdle()
    })
  }

  function lock(): void {
    cancelIdle?.()
    show({ ...LOCK_OFF, state: 'locked' })
    deps.onLock()
    dropKey()
    countDown()
  }

  /** What is recorded and not stored still needs the key; the screen is locked all the same. */
  function dropKey(): void {
    if (view.state === 'locked' && !deps.hasUnsaved()) vault.lock()
  }

  function reconsider(): void {
    const isShut = view.state !== 'locked' && vault.state() === 'locked'
    if (isForeign && isShut && !deps.isDrawing()) lock()
    dropKey()
  }

  /** Another page has turned the PIN off: what could not be written sealed is written in plain. */
  function noticePinGone(): void {
    isForeign = false
    if (view.state === 'off') return
    cancelIdle?.()
    show({ ...LOCK_OFF, done: texts.section.turnedOff })
    deps.onOpen()
  }

  function opened(): void {
    isForeign = false
    show({ state: 'open', told: undefined, done: undefined, wait_s: 0, isBusy: false })
    usedAt_ms = clock.read().mono_ms
    watchIdle()
    deps.onOpen()
    if (vault.isUnsealing()) void unseal()
    else if (vault.isSealing()) void seal()
  }

  async function seal(): Promise<void> {
    try {
      await deps.sealStored((done, of) => show({ sealing: { done, of } }))
      await vault.sealed()
      show({ sealing: undefined })
    } catch {
      show({ sealing: undefined, told: texts.section.sealingFailed })
    }
  }

  async function unseal(): Promise<void> {
    try {
      await deps.unsealStored((done, of) => show({ unsealing: { done, of } }))
      await vault.load()
      cancelIdle?.()
      show({ ...LOCK_OFF, done: texts.section.turnedOff })
    } catch {
      show({ unsealing: undefined, told: texts.section.unsealingFailed })
    }
  }

  /** Runs one try at a time, and tells what came of it. */
  async function trying(work: () => Promise<string | undefined>): Promise<void> {
    if (view.isBusy) return
    show({ isBusy: true, told: undefined, done: undefined })
    try {
      const told = await work()
      show(told === undefined ? { isBusy: false } : { told, isBusy: false })
    } catch (error) {
      const why = troubleText(error, deps.storageTexts)
      show({ told: `${texts.told.notTried} ${why}`, isBusy: false })
    }
    countDown()
  }

  const faultIn = (opening: Opening): string | undefined =>
    opening.kind === 'wrong' ? texts.locked.wrong : undefined

  const faultOf = (pin: string): string | undefined => {
    const fault = pinFault(pin)
    return fault && texts.section.faults[fault]
  }

  const actions: LockActions = {
    setPin: (pin) =>
      trying(async () => {
        const fault = faultOf(pin)
        if (fault !== undefined) return fault
        if (deps.isDrawing()) return texts.section.notDuringDraw
        if ((await vault.load()) !== 'none') return texts.section.alreadySet
        const recoveryKey = await vault.setUp(pin)
        show({ recoveryKey })
        opened()
        return undefined
      }),
    unlock: (pin) =>
      trying(async () => {
        const opening = await vault.open(pin)
        if (opening.kind === 'open') opened()
        return faultIn(opening)
      }),
    recover: (recoveryKey, newPin) =>
      trying(async () => {
        const fault = faultOf(newPin)
        if (fault !== undefined) return fault
        if (!(await vault.openByRecovery(recoveryKey, newPin))) return texts.locked.recoveryWrong
        opened()
        return undefined
      }),
    changePin: (pin, newPin) =>
      trying(async () => {
        const fault = faultOf(newPin)
        if (fault !== undefined) return fault
        const opening = await vault.changePin(pin, newPin)
        if (opening.kind === 'open') show({ done: texts.section.changed })
        return faultIn(opening)
      }),
    renewRecovery: (pin) =>
      trying(async () => {
        const { recoveryKey, ...opening } = await vault.renewRecovery(pin)
        if (recoveryKey !== undefined) show({ recoveryKey })
        return faultIn(opening)
      }),
    turnPinOff: (pin) =>
      trying(async () => {
        if (deps.isDrawing()) return texts.section.notDuringDraw
        if (view.sealing) return texts.section.notWhileSealing
        const opening = await vault.turnOff(pin)
        if (opening.kind === 'open') await unseal()
        return opening.kind === 'open' ? view.told : faultIn(opening)
      }),
    keptRecovery: () => show({ recoveryKey: undefined }),
    lockNow: () => {
      if (view.state === 'open' && !deps.isDrawing()) lock()
    },
  }

  return {
    actions,
    start: () => {
      const state = vault.state()
      show({ state: state === 'none' ? 'off' : state })
      if (state === 'locked') countDown()
    },
    noticeUse: () => {
      usedAt_ms = clock.read().mono_ms
    },
    noticeForeignPin: () => {
      if (view.state === 'locked' || isForeign) return
      isForeign = true
      void vault.load().then(
        (state) => (state === 'none' ? noticePinGone() : reconsider()),
        () => (isForeign = false),
      )
    },
    reconsider,
  }
}
