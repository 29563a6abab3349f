import { see } from './drive.ts'
import type { Fault } from './fault.ts'
import type { BandAlarm, Lost } from './outcome.ts'
import type { TrialOptions } from './stage.ts'
import { alarmOf, bandOn, lostFromStore, type AlarmDue, type Trial } from './trial.ts'

/** When the fault began, and what it does to the time at which the alarm is due. */
export type Injected = AlarmDue & { readonly since_ms?: number }

export interface BandFault extends Pick<Fault, 'id' | 'did' | 'long'> {
  readonly options?: TrialOptions
  /** A patient typed in by hand: the invented one is nobody whose arm is watched over after a reload. */
  readonly byHand?: boolean
  /** Does it, with the band on and the needle to go in next. */
  inject(trial: Trial): Promise<Injected | void>
  readonly sees: RegExp
  /** It may be gone again by the time the fault is done: looked for from its beginning on. */
  readonly seenMeanwhile?: boolean
  /** What is done between reading the screen and counting. */
  after?(trial: Trial): Promise<void>
  alarm?(trial: Trial, injected: Injected): Promise<BandAlarm>
  lost?(trial: Trial): Promise<Lost>
}

/** A fault that comes while the band is on: what is seen, whether its alarm sounds, and what is stored in the end. */
export function bandFault(family: string, fault: BandFault): Fault {
  const { id, did, long = false } = fault
  return {
    id,
    family,
    did,
    long,
    run: async (stage) => {
      const trial = await stage.trial(fault.options)
      await bandOn(trial, fault.byHand)
      const begun_ms = Date.now()
      const meanwhile = fault.seenMeanwhile && see(trial.page, fault.sees, begun_ms)
      const injected = (await fault.inject(trial)) ?? {}
      const since_ms = injected.since_ms ?? injected.ableFrom_ms ?? begun_ms
      const seen = await (meanwhile || see(trial.page, fault.sees, since_ms))
      const band = await (fault.alarm ?? alarmOf)(trial, injected)
      await fault.after?.(trial)
      const lost = await (fault.lost ?? lostFromStore)(trial)
      return { seen, band, lost }
    },
  }
}
