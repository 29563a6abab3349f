import type { Page } from 'playwright-core'
import { readLog } from '../support/e2eLog.ts'
import type { Lost } from './outcome.ts'
import type { DiskMode, FaultWindow } from './inPage.ts'
import { commandsIn, confirm, type Trial } from './trial.ts'

/** From now on the disk of that page goes wrong in that way. */
export const disk = (page: Page, mode: DiskMode): Promise<void> =>
  page.evaluate((next) => {
    const tools = (window as FaultWindow).stillhandFaults
    if (tools) tools.disk = next
  }, mode)

/** The disk goes wrong in that way, then the next step is confirmed. */
export const goesWrong = (mode: DiskMode) => async (trial: Trial) => {
  await disk(trial.page, mode)
  await confirm(trial)
}

export const isWell = ({ page }: Trial): Promise<void> => disk(page, 'well')

export const since = (): { since_ms: number } => ({ since_ms: Date.now() })

/** Entries that are stored, whatever has become of their chain. */
export async function countStored(trial: Trial, countedIn: string): Promise<Lost> {
  const kept = commandsIn(await readLog(trial.page))
  return { confirmed: trial.confirmed, kept, countedIn }
}
