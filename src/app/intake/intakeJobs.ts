import { faulty, ok, type Result } from '../../core/basics/result.ts'
import type { Laboratory } from '../../core/catalogue/laboratories.ts'
import type { Catalogue, StockTube, TestRow, TubeRow } from '../../core/catalogue/catalogue.ts'
import type { VerifySignature } from '../../core/log/exportFile.ts'
import { logFault, type LogFault } from '../../core/log/fault.ts'
import { readLog, signatureFault } from '../../core/log/readLog.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import { verdictOf, type KeyStanding, type LogVerdict } from '../../core/log/verdict.ts'
import type { Policy } from '../../core/policy/policy.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import type { Job, JobHandlers } from '../../ports/jobs.ts'
import { readOrder, type OrderReading, type OrderSite } from '../order/readOrder.ts'
import type { OrdersSite } from '../order/orderPiece.ts'
import { readOrders, type ReadPiece } from '../order/readOrders.ts'
import { readStock, type CatalogueReaderTexts } from '../site/catalogue/readCatalogue.ts'
import { readLaboratories, type PlaceFault } from '../site/catalogue/readJson.ts'
import { readCatalogueFile } from '../site/catalogue/readCatalogueFile.ts'
import type { TableFault } from '../site/catalogue/readTable.ts'
import { readPolicy, type PolicyFault } from '../site/readPolicy.ts'
import type { Texts } from '../site/texts.ts'
import { firstFaults, type Shortened } from './firstFaults.ts'

/** A log that holds, offered to be taken in: what it is, the bytes it came as, and what can be said of it. */
export interface LogOffer {
  readonly log: DrawLog
  readonly original: string
  readonly verdict: LogVerdict
}

/** Keys that are known here, by their public key. */
export type KnownKeys = Readonly<Record<string, KeyStanding>>

/** `undefined` where the bytes are no text (UTF-8). */
type FromText<T> = T | undefined

interface Bytes {
  readonly bytes: Uint8Array
}

/** The reading of files: what each piece of work takes and gives. */
export interface IntakeJobs {
  readonly order: Job<Bytes & { readonly site: OrderSite }, FromText<Result<OrderReading>>>
  readonly orders: Job<Bytes & { readonly site: OrdersSite }, FromText<readonly ReadPiece[]>>
  readonly catalogue: Job<
    Bytes & { readonly current: Catalogue; readonly texts: CatalogueReaderTexts },
    FromText<Shortened<Catalogue, TableFault>>
  >
  readonly stock: Job<
    Bytes & { readonly tubes: readonly TubeRow[]; readonly texts: CatalogueReaderTexts },
    FromText<Shortened<readonly StockTube[], TableFault>>
  >
  readonly laboratories: Job<
    Bytes & { readonly tests: readonly TestRow[]; readonly texts: CatalogueReaderTexts },
    FromText<Shortened<readonly Laboratory[], PlaceFault>>
  >
  readonly limits: Job<
    Bytes & { readonly shipped: Policy; readonly texts: Pick<Texts, 'site' | 'text'> },
    FromText<Shortened<Policy, PolicyFault>>
  >
  readonly log: Job<
    Bytes & { readonly keys: KnownKeys; readonly now_ms: number },
    Result<LogOffer, LogFault>
  >
}

/** What does the reading. Pure but for the check of signatures; it runs in a worker or in a test. */
export function intakeHandlers(
  sha256: Sha256,
  verifySignature: VerifySignature,
): JobHandlers<IntakeJobs> {
  return {
    order: ({ bytes, site }) => fromText(bytes, (text) => readOrder(text, site)),
    orders: ({ bytes, site }) => fromText(bytes, (text) => readOrders(text, site)),
    catalogue: ({ bytes, current, texts }) =>
      fromText(bytes, (text) => firstFaults(readCatalogueFile(current, text, texts))),
    stock: ({ bytes, tubes, texts }) =>
      fromText(bytes, (text) => firstFaults(readStock(text, tubes, texts))),
    laboratories: ({ bytes, tests, texts }) =>
      fromText(bytes, (text) => firstFaults(readLaboratories(text, tests, texts))),
    limits: ({ bytes, shipped, texts }) =>
      fromText(bytes, (text) => firstFaults(readPolicy(shipped, text, texts))),
    log: async ({ bytes, keys, now_ms }) => {
      const original = utf8Text(bytes)
      if (original === undefined) return faulty([logFault('notUtf8')])
      const read = readLog(original, sha256)
      if (!read.ok) return read
      const unsigned = await signatureFault(read.value, verifySignature)
      if (unsigned) return faulty([unsigned])
      const standing = (key: string): KeyStanding =>
        Object.hasOwn(keys, key) ? (keys[key] ?? UNKNOWN) : UNKNOWN
      const verdict = verdictOf(read.value, standing, now_ms)
      return ok({ log: read.value.log, original, verdict })
    },
  }
}

const UNKNOWN: KeyStanding = { kind: 'unknown' }

const fromText = <T>(bytes: Uint8Array, read: (text: string) => T): T | undefined => {
  const text = utf8Text(bytes)
  return text === undefined ? undefined : read(text)
}

/** The text of bytes, or `undefined` when they are none. A byte order mark stays, for each reader to judge. */
function utf8Text(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
  } catch {
    return undefined
  }
}
