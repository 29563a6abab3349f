import { verifySignature } from '../../../src/adapters/crypto/verifySignature.ts'
import { intakeHandlers } from '../../../src/app/intake/intakeJobs.ts'
import { shippedSite } from '../site.ts'
import { sha256 } from '../sampleLog.ts'
import { frozen } from './attack.ts'

/** What the worker does with a file, with a site that nothing may change. */
export const handlers = intakeHandlers(sha256, verifySignature)
export const site = frozen(shippedSite)
export const TODAY = '2026-11-25'

/** A catalogue small enough to be read ten thousand times. */
export const rows = (csv: string, count: number): string =>
  csv.split('\n').slice(0, count + 1).join('\n') // prettier-ignore
