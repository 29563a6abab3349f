import { errorText } from '../../src/core/basics/errorText.ts'
import { type Fault, type FaultRow } from './fault.ts'
import { SEEN_ms, type Outcome } from './outcome.ts'
import { openStage, type Stage } from './stage.ts'
import type { Trial } from './trial.ts'

/** The verdict of a row in which nothing was lost, nothing silent and no alarm late. */
export const KEPT = 'kept'

/** Runs faults, several at a time, and hands each row over as soon as it is there. */
export async function runFaults(
  faults: readonly Fault[],
  lanes: number,
  onRow: (row: FaultRow) => void,
): Promise<readonly FaultRow[]> {
  const stage = await openStage()
  const waiting = [...faults].sort((a, b) => Number(b.long ?? false) - Number(a.long ?? false))
  const rows = new Map<string, FaultRow>()
  const lane = async (): Promise<void> => {
    for (let fault = waiting.shift(); fault; fault = waiting.shift()) {
      const row = await rowOf(fault, stage)
      rows.set(fault.id, row)
      onRow(row)
    }
  }
  try {
    await Promise.all(Array.from({ length: lanes }, lane))
  } finally {
    await stage.close()
  }
  return faults.flatMap(({ id }) => rows.get(id) ?? [])
}

/** A stage on which every device is put away once the work is done, also where it failed: none disturbs a later row. */
async function withOwnDevices<T>(stage: Stage, work: (own: Stage) => Promise<T>): Promise<T> {
  const used: Trial[] = []
  try {
    return await work({
      ...stage,
      trial: async (options) => {
        const trial = await stage.trial(options)
        used.push(trial)
        return trial
      },
    })
  } finally {
    for (const { context } of used) await context.close().catch(() => undefined)
  }
}

async function rowOf(fault: Fault, stage: Stage): Promise<FaultRow> {
  const { id, family, did } = fault
  try {
    const outcome = await withOwnDevices(stage, (own) => fault.run(own))
    const { seen, band, lost } = outcome
    const isSeen = seen.ms !== null && seen.ms <= SEEN_ms
    return {
      fault: id,
      family,
      did,
      sawWithin2s: isSeen ? seen.text : null,
      seen_ms: seen.ms,
      lost: `${Math.max(0, lost.confirmed - lost.kept)} of ${lost.confirmed} confirmed (${lost.countedIn})`,
      silent: !isSeen,
      bandAlarm: band,
      verdict: verdictOf(outcome, isSeen),
    }
  } catch (error) {
    const verdict = `not run to its end: ${errorText(error).split('\n')[0] ?? ''}`
    const unknown = { sawWithin2s: null, seen_ms: null, lost: 'not counted', silent: true } as const
    return { fault: id, family, did, ...unknown, bandAlarm: 'not running', verdict }
  }
}

function verdictOf({ lost, band, wrong = [] }: Outcome, isSeen: boolean): string {
  const { confirmed, kept, countedIn } = lost
  const faults = [
    ...(kept < confirmed ? [`${confirmed - kept} lost`] : []),
    ...(kept > confirmed ? [`${kept - confirmed} recorded that nobody confirmed`] : []),
    ...(/broken/.test(countedIn) ? ['chain broken'] : []),
    ...(isSeen ? [] : ['silent']),
    ...(band !== 'not running' && !band.heard.endsWith('on time') ? [`alarm ${band.heard}`] : []),
    ...wrong,
  ]
  return faults.length === 0 ? KEPT : `not kept: ${faults.join(', ')}`
}
