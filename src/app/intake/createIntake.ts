import { fillText, type TextValues } from '../../core/basics/fillText.ts'
import { faulty, ok, type Result } from '../../core/basics/result.ts'
import { logFaultSentence } from '../../core/log/logTexts.ts'
import { JobError, type Jobs } from '../../ports/jobs.ts'
import type { ReadPiece } from '../order/readOrders.ts'
import type { OrderReading } from '../order/readOrder.ts'
import type { TableFault } from '../site/catalogue/readTable.ts'
import type { PolicyFault } from '../site/readPolicy.ts'
import type { SiteData } from '../site/siteData.ts'
import type { PlaceFault } from '../site/catalogue/readJson.ts'
import type { Laboratory } from '../../core/catalogue/laboratories.ts'
import type { Zone } from '../../core/time/zone.ts'
import type { Catalogue, StockTube } from '../../core/catalogue/catalogue.ts'
import type { Policy } from '../../core/policy/policy.ts'
import { MOST_BYTES, type ChosenFile, type IntakeKind } from './chosenFile.ts'
import type { FileFaultId } from '../site/fileTexts.ts'
import type { Shortened } from './firstFaults.ts'
import type { IntakeJobs, KnownKeys, LogOffer } from './intakeJobs.ts'

/** Longer than the largest sound file takes; what takes longer was made to. */
export const READING_LIMIT_ms = 5000

/** Reads files that a person chose, out of the way of the clocks. Nothing changes by it; faults are sentences. */
export interface Intake {
  order(file: ChosenFile, today: string): Promise<Result<OrderReading>>
  orders(
    file: ChosenFile,
    now: { readonly today: string; readonly zone: Zone },
  ): Promise<Result<readonly ReadPiece[]>>
  log(file: ChosenFile, keys: KnownKeys, now_ms: number): Promise<Result<LogOffer>>
  catalogue(file: ChosenFile): Promise<Shortened<Catalogue, TableFault>>
  stock(file: ChosenFile): Promise<Shortened<readonly StockTube[], TableFault>>
  laboratories(file: ChosenFile): Promise<Shortened<readonly Laboratory[], PlaceFault>>
  limits(file: ChosenFile): Promise<Shortened<Policy, PolicyFault>>
}

/** What kept a whole table from being read. */
function ofTable(
  table: TableFault['table'],
  texts: readonly string[],
): Shortened<never, TableFault> {
  const faults = texts.map((text) => ({ table, row: 0, column: '', text }))
  return { reading: faulty(faults), more: 0 }
}

export function createIntake(jobs: Jobs<IntakeJobs>, site: SiteData): Intake {
  const { texts, catalogue, defaultPolicy } = site
  // Only what reading needs: it is copied to wherever the file is read.
  const { tests, series = [] } = catalogue
  const words = { site: texts.site, catalogue: texts.catalogue, text: texts.text }
  const orders = { catalogue: { tests, series }, texts: { order: texts.order, text: texts.text } }
  const say = (id: FileFaultId, values?: TextValues): Result<never> =>
    faulty([fillText(texts.text.files[id], values)])

  async function read<T>(
    kind: IntakeKind,
    file: ChosenFile,
    work: (bytes: Uint8Array) => Promise<T | undefined>,
  ): Promise<Result<T>> {
    const most = MOST_BYTES[kind]
    if (file.size > most) return say('tooLarge', { most_MB: most / 1_000_000 })
    const bytes = await file.arrayBuffer().catch(() => undefined)
    if (!bytes) return say('gone')
    try {
      const value = await work(new Uint8Array(bytes))
      return value === undefined ? say('notUtf8') : ok(value)
    } catch (error) {
      const tooLong = error instanceof JobError && error.fault === 'tooLong'
      return say(tooLong ? 'tooLong' : 'failed', { limit_s: READING_LIMIT_ms / 1000 })
    }
  }

  return {
    order: async (file, today) => {
      const reading = await read('order', file, (bytes) =>
        jobs.run('order', { bytes, site: { ...orders, today } }),
      )
      return reading.ok ? reading.value : reading
    },
    orders: (file, now) =>
      read('orders', file, (bytes) => jobs.run('orders', { bytes, site: { ...orders, ...now } })),
    log: async (file, keys, now_ms) => {
      const reading = await read('log', file, (bytes) => jobs.run('log', { bytes, keys, now_ms }))
      if (!reading.ok) return reading
      const { value } = reading
      if (value.ok) return value
      return faulty(value.faults.map((fault) => logFaultSentence(fault, texts.log)))
    },
    catalogue: async (file) => {
      const reading = await read('catalogue', file, (bytes) =>
        jobs.run('catalogue', { bytes, current: catalogue, texts: words }),
      )
      return reading.ok ? reading.value : ofTable('tests', reading.faults)
    },
    stock: async (file) => {
      const reading = await read('stock', file, (bytes) =>
        jobs.run('stock', { bytes, tubes: catalogue.tubes, texts: words }),
      )
      return reading.ok ? reading.value : ofTable('stock', reading.faults)
    },
    laboratories: async (file) => {
      const reading = await read('laboratories', file, (bytes) =>
        jobs.run('laboratories', { bytes, tests, texts: words }),
      )
      if (reading.ok) return reading.value
      return { reading: faulty(reading.faults.map((text) => ({ place: '', text }))), more: 0 }
    },
    limits: async (file) => {
      const reading = await read('limits', file, (bytes) =>
        jobs.run('limits', { bytes, shipped: defaultPolicy, texts: words }),
      )
      if (reading.ok) return reading.value
      return { reading: faulty(reading.faults.map((text) => ({ key: 'file', text }))), more: 0 }
    },
  }
}
