import type { Result } from '../../core/basics/result.ts'
import type { AccessFault } from '../../core/handOver/accessFault.ts'
import type { HandOverStore } from '../../ports/handOverStore.ts'
import type { RecordServer } from '../../ports/recordServer.ts'
import type { HandOverLimits } from './handOverLimits.ts'
import type { RecordServerFile } from './recordServerFile.ts'

/** A server with what opens it. */
export interface Connected {
  readonly server: RecordServer
  /** Who was in the chart that the app was launched from, by the server's id; taken once. */
  takePatient(): string | undefined
  /** The page goes to the authorization server now: nothing more is begun on it. */
  readonly isLeaving: boolean
  /** Why the launch from a chart that this page comes from did not succeed. */
  readonly launchFault: AccessFault | undefined
  /** The public half of this device's key as a JWK Set (RFC 7517). */
  publicKeys(): Promise<string | undefined>
}

/** What handing over stands on. */
export interface HandOverDeps {
  readonly store: HandOverStore
  readonly limits: HandOverLimits
  /** What the site's file says; `undefined` where there is none. Never rejects. */
  readonly find: () => Promise<Result<RecordServerFile> | undefined>
  /** The page was opened from a chart just now. */
  readonly isLaunched: boolean
  /** Loads what talks to the server; nothing is sent by it. */
  readonly connect: (file: RecordServerFile) => Promise<Connected>
}
