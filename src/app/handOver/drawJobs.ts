import type { AskedBy } from '../../core/fhir/fateOf.ts'
import { transactionOf } from '../../core/fhir/transaction.ts'
import { drawKey } from '../../core/handOver/handOverRow.ts'
import { transactionAnswer } from '../../core/handOver/transactionAnswer.ts'
import { openingOf } from '../../core/record/openingOf.ts'
import type { LogStore, StoredDraw } from '../../ports/logStore.ts'
import type { AppDeps } from '../appDeps.ts'
import { recordBundle } from '../record/recordBundle.ts'
import type { HandOverJob, Made } from './handOverJob.ts'

type DrawJobDeps = Pick<AppDeps, 'sha256' | 'site'> & {
  readonly logStore: Pick<LogStore, 'load' | 'original'>
  /** The requests that those orders of the list were fetched from. */
  readonly asked: (listed: readonly string[]) => AskedBy
}

/** Closed draws of patients, the oldest first. Practice never leaves. */
export function drawJobs(draws: readonly StoredDraw[], deps: DrawJobDeps): readonly HandOverJob[] {
  return draws
    .filter(({ closed, invented }) => closed && !invented)
    .toSorted((a, b) => a.opened_ms - b.opened_ms)
    .map(({ drawId, entries }) => ({
      key: drawKey(drawId),
      kind: 'draw',
      about: drawId,
      mark: String(entries ?? ''),
      make: () => makeDraw(drawId, deps),
    }))
}

async function makeDraw(drawId: string, deps: DrawJobDeps): Promise<Made> {
  const { logStore, site, sha256, asked } = deps
  if ((await logStore.original(drawId)) !== undefined) return { kind: 'broughtIn' }
  const log = await logStore.load(drawId)
  if (!log) return { kind: 'gone' }
  // A bundle has no place for a doubt about all of it.
  if (log.fault) return { kind: 'refused', refusal: { by: 'device', faults: ['damaged'] } }
  const bundle = recordBundle(log, site, sha256)
  const made = transactionOf(bundle, site.recordSystems, asked(openingOf(log).listed ?? []))
  if (!made.ok) return { kind: 'refused', refusal: { by: 'device', faults: made.faults } }
  const body = JSON.stringify(made.value)
  return {
    kind: 'ready',
    hash: log.entries.at(-1)?.hash ?? '',
    body,
    send: async (server) => transactionAnswer(await server.transact(body), made.value.entry.length),
  }
}
