import { bandFault } from './bandFault.ts'
import { see } from './drive.ts'
import type { Fault } from './fault.ts'
import type { Stage, TrialOptions } from './stage.ts'
import { alarmOf, confirm, drawTo, lostFromStore, startDraw, type Trial } from './trial.ts'

const family = 'wake'
const MAY_GO_DARK = /^The screen may go dark/

interface WakeWindow extends Window {
  stillhandLocks?: WakeLockSentinel[]
}

/** The browser allows a wake lock, and what it gives is noted. */
const allowed: TrialOptions = {
  prepare: async (context) => {
    await context.grantPermissions(['microphone', 'screen-wake-lock'])
    await context.addInitScript(() => {
      const locks: WakeLockSentinel[] = []
      ;(window as WakeWindow).stillhandLocks = locks
      const request = navigator.wakeLock.request.bind(navigator.wakeLock)
      navigator.wakeLock.request = async (type) => {
        const lock = await request(type)
        locks.push(lock)
        return lock
      }
    })
  },
}

const untilHeld = ({ page }: Trial): Promise<unknown> =>
  page.waitForFunction(() =>
    ((window as WakeWindow).stillhandLocks ?? []).some((lock) => !lock.released),
  )

/** A draw in which the browser gives no wake lock from its beginning on. */
async function neverLit(stage: Stage, options: TrialOptions) {
  const trial = await stage.trial(options)
  await startDraw(trial)
  const seen = await see(trial.page, MAY_GO_DARK)
  await drawTo(trial, 'needle in')
  const band = await alarmOf(trial)
  await confirm(trial)
  const lost = await lostFromStore(trial)
  return { seen, band, lost }
}

export const WAKE_FAULTS: readonly Fault[] = [
  {
    id: 'wakeLockRefused',
    family,
    did: 'The browser refuses to keep the screen lit (real: no permission).',
    run: (stage) => neverLit(stage, {}),
  },
  {
    id: 'wakeLockUnknown',
    family,
    did: 'The browser cannot keep a screen lit (injected: it knows no wake lock).',
    run: (stage) =>
      neverLit(stage, {
        prepare: (context) =>
          context.addInitScript(() => {
            Object.defineProperty(navigator, 'wakeLock', { value: undefined })
          }),
      }),
  },
  bandFault(family, {
    id: 'wakeLockTaken',
    did: 'The browser takes the wake lock away with the band on and gives no other (real: Browser.grantPermissions without it, which refuses it; the end of the lock is injected).',
    options: allowed,
    inject: async (trial) => {
      await untilHeld(trial)
      await trial.context.clearPermissions()
      // Granting others refuses this one; without any it would be given again.
      await trial.context.grantPermissions(['microphone'])
      const since_ms = Date.now()
      await trial.page.evaluate(async () => {
        for (const lock of (window as WakeWindow).stillhandLocks ?? []) await lock.release()
      })
      return { since_ms }
    },
    sees: MAY_GO_DARK,
    after: async (trial) => void (await confirm(trial)),
  }),
]
