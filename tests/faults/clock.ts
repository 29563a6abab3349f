import { bandFault, type BandFault } from './bandFault.ts'
import type { Fault } from './fault.ts'
import { clickOn, untilShown } from './drive.ts'
import { BAND_LIMIT_ms } from './site.ts'
import { confirm, inTools, moveClocks, type Trial } from './trial.ts'

const family = 'clock'
const HOUR_ms = 60 * 60_000
const TEN_MINUTES_ms = 10 * 60_000
const CLOCK_SAID = /clock/i
/** The jump itself, or what is graver and comes of it. */
const JUMPED = /clock jumped|band over/i

/** Sets the wall clock while the page runs, then confirms the next step. */
const set = (by_ms: number) => async (trial: Trial) => {
  await moveClocks(trial, by_ms, 0)
  await trial.page.waitForTimeout(600)
  await confirm(trial)
}

/** Both clocks of the next pages begin elsewhere. */
async function reloadAt(trial: Trial, by_ms: number) {
  await trial.context.addInitScript((by) => {
    const tools = (
      window as Window & { stillhandFaults?: { moveClocks(a: number, b: number): void } }
    ).stillhandFaults
    tools?.moveClocks(by, 0)
  }, by_ms)
  await trial.page.reload()
  const ableFrom_ms = Date.now()
  await clickOn(trial.page, /^Go on with the draw of/)
  await untilShown(trial.page, ({ key }) => key !== '')
  return ableFrom_ms
}

/** Stops the page as Chromium stops one that nobody looks at, and sets both clocks to the time that passed. */
async function freeze(trial: Trial, real_ms: number, passed_ms: number): Promise<number> {
  const session = await trial.context.newCDPSession(trial.page)
  await session.send('Page.setWebLifecycleState', { state: 'frozen' })
  await new Promise((resolve) => setTimeout(resolve, real_ms))
  await session.send('Page.setWebLifecycleState', { state: 'active' })
  const thawed_ms = Date.now()
  if (passed_ms > 0) await moveClocks(trial, passed_ms, passed_ms)
  return thawed_ms
}

const steps: readonly (Pick<BandFault, 'id' | 'did'> & { readonly by_ms: number })[] = [
  {
    id: 'clockForward',
    did: 'The clock of the machine is set 1 h forward (injected at Date).',
    by_ms: HOUR_ms,
  },
  {
    id: 'clockBack',
    did: 'The clock of the machine is set 1 h back (injected at Date).',
    by_ms: -HOUR_ms,
  },
]

export const CLOCK_FAULTS: readonly Fault[] = [
  ...steps.map(({ id, did, by_ms }) =>
    bandFault(family, {
      id,
      did,
      inject: async (trial) => {
        const due_ms = by_ms > 0 ? Date.now() : undefined
        await set(by_ms)(trial)
        // Forward may also mean that the machine slept: the alarm is due at once.
        return due_ms === undefined
          ? {}
          : { due_ms, from: 'the step, after which the limit may be past' }
      },
      sees: JUMPED,
      seenMeanwhile: true,
    }),
  ),
  bandFault(family, {
    id: 'clockForwardAndBack',
    did: 'The clock is set 1 h forward and right again 1 s later (injected at Date).',
    inject: async (trial) => {
      const due_ms = Date.now()
      await moveClocks(trial, HOUR_ms, 0)
      await trial.page.waitForTimeout(1000)
      await moveClocks(trial, -HOUR_ms, 0)
      await confirm(trial)
      return { due_ms, from: 'the step, after which the limit may be past' }
    },
    sees: JUMPED,
    seenMeanwhile: true,
  }),
  ...(['Atlantic/Cape_Verde', 'Africa/Lagos'] as const).map((zone, index) =>
    bandFault(family, {
      id: index === 0 ? 'daylightSavingBack' : 'daylightSavingForward',
      did: `The local time ${index === 0 ? 'falls back' : 'springs forward'} in mid-draw, with the same time of the world (real: Emulation.setTimezoneOverride to ${zone}).`,
      inject: async (trial) => {
        const session = await trial.context.newCDPSession(trial.page)
        await session.send('Emulation.setTimezoneOverride', { timezoneId: zone })
        await confirm(trial)
      },
      sees: /^blood in the tubing/i,
    }),
  ),
  bandFault(family, {
    id: 'clockBackOverReload',
    did: 'The clock is set 1 h back while the page is loaded anew (injected at Date).',
    byHand: true,
    inject: async (trial) => {
      const ableFrom_ms = await reloadAt(trial, -HOUR_ms)
      return {
        due_ms: ableFrom_ms,
        ableFrom_ms,
        from: 'the return of the page, since nobody knows how long it was',
      }
    },
    sees: CLOCK_SAID,
  }),
  bandFault(family, {
    id: 'clockForwardOverReload',
    did: 'The clock is set 1 h forward while the page is loaded anew (injected at Date).',
    byHand: true,
    inject: async (trial) => {
      const ableFrom_ms = await reloadAt(trial, HOUR_ms)
      return { due_ms: ableFrom_ms, ableFrom_ms, from: 'the return of the page' }
    },
    sees: /away for|over by|band over/i,
  }),
  bandFault(family, {
    id: 'frozen',
    did: 'The page is frozen from the band on until 5 s past its limit (real: Page.setWebLifecycleState).',
    inject: async (trial) => {
      const ableFrom_ms = await freeze(trial, BAND_LIMIT_ms + 5000, 0)
      return { ableFrom_ms, since_ms: ableFrom_ms, from: 'the thaw' }
    },
    sees: /away for|band over/i,
  }),
  bandFault(family, {
    id: 'frozenTenMinutes',
    did: 'The page is frozen for 2 s and both clocks show 10 min more (real freeze, time injected at Date and performance.now).',
    inject: async (trial) => {
      const ableFrom_ms = await freeze(trial, 2000, TEN_MINUTES_ms)
      return { due_ms: ableFrom_ms, ableFrom_ms, since_ms: ableFrom_ms, from: 'the thaw' }
    },
    sees: /away for|band over/i,
  }),
  bandFault(family, {
    id: 'asleep',
    did: 'The machine sleeps 10 min with the band on: the wall clock moves, the page’s own does not (injected at Date).',
    inject: async (trial) => {
      const due_ms = Date.now()
      await moveClocks(trial, TEN_MINUTES_ms, 0)
      return { due_ms, from: 'the waking' }
    },
    sees: JUMPED,
    seenMeanwhile: true,
  }),
  bandFault(family, {
    id: 'timersDie',
    did: 'The worker that wakes the page ends without a word (real: Worker.terminate).',
    inject: async (trial) => {
      await inTools(trial.page, (tools) =>
        tools.workers
          .filter(({ url }) => url.includes('timer'))
          .forEach(({ worker }) => worker.terminate()),
      )
      await confirm(trial)
    },
    sees: /^blood in the tubing/i,
  }),
]
